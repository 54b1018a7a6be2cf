import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";

const source = (path) => readFileSync(new URL(`../../src/${path}`, import.meta.url), "utf8");

/** @returns {Map<string, string>} custom property to value, of the first rule */
function properties() {
  const rule = source("page/ink.css").match(/:root \{([^}]*)\}/)?.[1] ?? "";
  return new Map([...rule.matchAll(/(--[\w-]+):\s*([^;]+);/g)].map((each) => [each[1], each[2]]));
}

/** Luminance of #rrggbb. Truth: WCAG 2.2, relative luminance. */
function luminance(colour) {
  const parts = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255);
  const [r, g, b] = parts.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Truth: WCAG 2.2, contrast ratio. */
function contrast(a, b) {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

test("page and paper paint with one table of ink", () => {
  const ink = source("drawing/ink.cpp");
  const dashes = new Map([...ink.matchAll(/constexpr Dash (\w+)\{([^}]*)\}/g)].map((each) => [each[1], each[2].split(",").map(Number)]));
  const rows = [...ink.matchAll(/InkLook\{Ink::\w+, "(\w+)", 0x([0-9A-F]{6}), 0x[0-9A-F]{6}, (\w+), ([\d.]+),/g)];
  assert.equal(rows.length, 9);
  const page = properties();
  for (const [, name, colour, dash, weight] of rows) {
    assert.equal(page.get(`--ink-${name}`)?.toLowerCase(), `#${colour.toLowerCase()}`, name);
    const wanted = (dashes.get(dash) ?? []).map((each) => each * Number(weight)).filter((each) => each > 0);
    const got = (page.get(`--dash-${name}`) ?? "").split(" ").map(Number).filter((each) => each > 0);
    const twice = got.length === 2 ? [...got, ...got] : got;
    assert.deepEqual(twice, wanted, `dash of ${name}`);
  }
});

test("words on every ground have a contrast of at least 4.5", () => {
  const known = properties();
  const css = source("page/ink.css").replace(/var\((--[\w-]+)\)/g, (_, name) => known.get(name) ?? "");
  const grounds = [...css.matchAll(/--ground: (#\w+);\s*--raised: (#\w+);\s*--shade: (#\w+);[^}]*?--text: (#\w+);\s*--quiet: (#\w+);\s*--half: (#\w+);/g)];
  assert.equal(grounds.length, 3);
  for (const [, ground, raised, shade, text, quiet, half] of grounds)
    for (const under of [ground, raised, shade])
      for (const over of [text, quiet, half]) assert.ok(contrast(over, under) >= 4.5, `${over} on ${under}`);
});
