/** Numbers and dates as people read them. No measuring happens here. */

const minus = "\u2212";
const thin = "\u2009";

/** @param {number} value @param {number} decimals */
export function number(value, decimals) {
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(digits) !== 0 ? minus + digits : digits;
}

/** @param {string} unit as in the file formats: deg, mm, %, 1 */
export function unit_sign(unit) {
  return { deg: "°", mm: `${thin}mm`, "%": `${thin}%` }[unit] ?? "";
}

/** @param {number} value @param {number} decimals @param {string} unit */
export function quantity(value, decimals, unit) {
  return number(value, decimals) + unit_sign(unit);
}

/** @param {string} unit digits worth showing where the program didn't say */
export function usual_decimals(unit) {
  return { "1": 2, "%": 0 }[unit] ?? 1;
}

/** @param {string} date YYYY-MM-DD, or a time that begins so; empty stays empty */
export function day(date) {
  if (!date) return "";
  const [year, month, of_month] = date.slice(0, 10).split("-").map(Number);
  const when = new Date(Date.UTC(year, month - 1, of_month));
  return when.toLocaleDateString("en-GB", {
    day: "numeric", month: "long", year: "numeric", timeZone: "UTC",
  });
}
