/** Every sentence of the page. Words a practice may change come from the program instead. */

/** @param {number} n @param {string} one @param {string} many */
const count = (n, one, many) => `${n} ${n === 1 ? one : many}`;

export const words = {
  name: "Pritchel",
  caution:
    "An aid to judgement, not a diagnosis. Numbers are only as good as the picture, its scale and the points placed on it.",
  close: "Close",
  back_to_horses: "Horses",

  cases: {
    title: "Horses",
    empty: "No horse yet. Write a name below to begin; you can fill in the rest later.",
    horse: "Horse",
    yard: "Yard",
    last_visit: "Last visit",
    no_visit: "no visit yet",
    new_title: "New horse",
    new_name: "Name of the horse",
    add: "Add horse",
  },

  record: {
    title: "Record",
    horse: "Horse",
    people: "People",
    history: "History",
    name: "Name",
    species: "Kind",
    species_names: { horse: "horse", pony: "pony", donkey: "donkey", draught: "draught horse" },
    breed: "Breed",
    sex: "Sex",
    colour: "Colour",
    work: "Work",
    age: "Age, years",
    height: "Height, cm",
    weight: "Weight, kg",
    yard: "Yard",
    owner: "Owner",
    farrier: "Farrier",
    vet: "Vet",
    registration: "Registration number",
    contact: "Contact",
    complaint: "What is wrong, in your words",
    course: "Lameness and shoeing until now",
    diagnosis: "Diagnosis, as the vet gave it",
    vet_has_seen: "Has a vet seen the horse for this?",
    yes_no: { "not-stated": "not stated", no: "no", yes: "yes" },
    laminitis: "Laminitis",
    laminitis_names: { "not-stated": "not stated", no: "no", suspected: "suspected", known: "known" },
    sudden_onset: "It came on suddenly",
    red_flags: "Tick what you see. Any of these stops the plan until a vet has seen the horse.",
    lameness: "Lameness grade",
    no_lameness: "No grade written down yet.",
    limb: "Limb",
    scale: "Scale",
    grade: "Grade",
    observer: "Seen by",
    add_grade: "Add grade",
    remove: "Remove",
  },

  visits: {
    title: "Visits",
    empty: "No visit yet. A visit holds the pictures of one day; begin one for today.",
    new_visit: "Begin a visit",
    date: "Date",
    last_trim: "Last trimmed or shod",
    no_pictures: "Add the X-rays of this visit: DICOM files, or photos from the camera.",
    add_files: "Add pictures",
    camera: "Camera",
    drop: "or drop files here",
    to_plan: "Plan",
    paper: "Paper",
    remove_picture: "Remove from visit",
    adding: (/** @type {string} */ name) => `Adding ${name} …`,
    last_trim_was: (/** @type {string} */ date) => `trimmed ${date}`,
  },

  limbs: {
    "left-fore": "left fore", "right-fore": "right fore",
    "left-hind": "left hind", "right-hind": "right hind",
  },
  views: { lateromedial: "side view", dorsopalmar: "front view" },
  views_full: {
    lateromedial: "From the side (lateromedial)",
    dorsopalmar: "From the front (dorsopalmar)",
  },

  confirm: {
    title: "What does this picture show?",
    lead: "Asked once. What the file says is filled in; look at the picture and correct it.",
    file_says: (/** @type {string} */ what) => `the file says ${what}`,
    side: "Which side of the horse?",
    left: "Left",
    right: "Right",
    end: "Fore or hind?",
    fore: "Fore",
    hind: "Hind",
    view: "Taken from where?",
    toward_toe: "In the picture, the toe points to the",
    toward_lateral: "In the picture, the outer (lateral) side of the foot is on the",
    shoeing: "Bare or shod?",
    bare: "Bare",
    shod: "Shod",
    loading: "Did the horse stand on this foot?",
    loadings: {
      "weight-bearing": "Yes, on it", "not-loaded": "No, it was lifted", "not-stated": "Not known",
    },
    letter: "Is there a lead letter in the picture?",
    letters: { none: "None", L: "L", R: "R" },
    letter_side: "The letter lies on the",
    scale: "How large is it? Without a scale there are no millimetres.",
    scales: {
      automatic: "What the file says",
      marker: "Something of known size is in the picture",
      magnification: "I know the magnification",
      distances: "I measured the distances",
      none: "No scale: angles and ratios only",
    },
    marker_mm: "Its size, mm",
    marker_hint: "You will then place its two ends first.",
    magnification: "Magnification, for example 1.12",
    source_to_detector: "X-ray tube to plate, mm",
    object_to_detector: "Middle of the foot to plate, mm",
    done: "That is right",
    missing: (/** @type {string} */ what) => `Still to answer: ${what}`,
    missing_names: {
      side: "left or right", end: "fore or hind", view: "where it was taken from",
      toward: "which way it points", shoeing: "bare or shod", loading: "standing on it",
      number: "the number for the scale",
    },
    reopen: "Picture facts",
  },

  sides: {
    title: "These don't agree:",
    checked: "I have checked: the reading is right",
    change: "Change the picture facts",
  },

  ask: {
    now: "Next point",
    where: (/** @type {number} */ n, /** @type {number} */ of) => `Point ${n} of ${of}`,
    extra: "Extra point",
    finding: "How to find it",
    mistakes: "Often mistaken",
    skip: "Can't see it: skip",
    placed_hint: "Tap the picture to place it. Hold to aim with the loupe.",
    drawing_of: (/** @type {string} */ title) => `Drawing with the place of: ${title}`,
    done: "Every point is placed or skipped",
    done_lead: "Read the numbers. Drag any point to correct it.",
    extras: (/** @type {number} */ n) => `Place ${count(n, "extra point", "extra points")}`,
    to_numbers: "Read the numbers",
    to_visit: "To the visit",
    to_plan: "To the plan",
    skipped_some: (/** @type {number} */ n) =>
      `${count(n, "point was", "points were")} skipped; see the list of points.`,
  },

  points: {
    title: "Points",
    placed: "placed",
    skipped: "skipped",
    open: "to do",
    extra: "extra",
    remove: "Remove point",
  },

  numbers: {
    title: "Numbers",
    empty: "A number appears as soon as its last point is placed.",
    waiting: "Not measured yet",
    status: {
      within: "in the usual range",
      below: "below the usual range",
      above: "above the usual range",
      "cannot-tell": "can't tell: near the edge",
      "no-band": "no published range",
      "not-measurable": "not measured",
    },
    standing: {
      published: "published", "trade-rule": "rule of the trade", "own-practice": "own practice",
    },
    range: (/** @type {string} */ range, /** @type {string} */ population) =>
      population ? `Usual: ${range} (${population})` : `Usual: ${range}`,
    positive: (/** @type {string} */ sign) => `Positive: ${sign}.`,
    needs: (/** @type {string} */ points) => `needs: ${points}`,
    scale: "Scale",
    gauge: (/** @type {string} */ value, /** @type {string} */ low, /** @type {string} */ high) =>
      `Gauge: ${value}, surely between ${low} and ${high}`,
  },

  tools: {
    points: "Points",
    points_hint: "Tap places a point, drag moves a point or the picture",
    brightness: "Brightness",
    brightness_hint: "Drag up for brighter, sideways for contrast (B; right-drag)",
    larger: "Larger",
    smaller: "Smaller",
    fit: "Fit",
    one_to_one: "1 : 1",
    undo: "Undo",
    redo: "Redo",
    loupe: "Loupe",
    lines: "Lines",
    lines_hint: "Show all construction lines, or only those of the chosen number",
    invert: "Invert",
    keys: "Keys",
    panel: "Panel",
  },

  keys: {
    title: "Keys",
    list: [
      ["Enter", "place the point asked for, in the middle of the view"],
      ["Arrows", "move the chosen point by one screen pixel, with Shift by ten; without a point, move the picture"],
      ["Tab, Shift+Tab", "next and previous point"],
      ["Delete", "remove the chosen point"],
      ["S", "skip the point asked for"],
      ["Ctrl+Z, Ctrl+Shift+Z", "undo, redo"],
      ["+ and \u2212", "larger, smaller"],
      ["0 and 1", "whole picture, one to one"],
      ["Space and drag", "move the picture"],
      ["B", "brightness mode; then the arrows change it"],
      ["I", "invert black and white"],
      ["L", "loupe on and off"],
      ["Esc", "let go of the chosen point"],
    ],
  },

  keeping: {
    saved: "Saved",
    saving: "Saving …",
    waiting: "Not saved yet, will keep trying",
    conflict: "Not saved: changed elsewhere",
  },
  conflict: {
    sentence: (/** @type {string} */ name) =>
      `These points were also changed somewhere else under the name ${name}. Yours are kept here but not saved.`,
    mine: "Put mine on top",
    theirs: "Take the others",
  },

  reader: {
    title: "Who is reading?",
    lead: "Your name stands beside every point you place and on the paper.",
    name: "Your name",
    keep: "Keep this name",
    change: (/** @type {string} */ name) => `Reader: ${name}. Change`,
    nobody: "Your name",
  },
  theme: { outdoors: "Outdoors", indoors: "Indoors", hint: "Light page for outdoors" },

  plan: {
    title: "Plan",
    none: "No plan yet for this visit. It is made from the points placed on this visit's pictures.",
    make: "Make the plan",
    again: "Make it again",
    making: "Working it out …",
    stops: "Stop: ask the vet first",
    locks: "Held at zero",
    lines: "What is proposed",
    no_lines: "Nothing is proposed: no measurement lies surely outside its range.",
    no_lines_at_stop: "Nothing is proposed while there is a stop.",
    remeasure: "Measure again",
    why: "Why",
    expected: "Expected",
    caution: "Caution",
    watch: "Watch",
    source: "Source",
    decision: "Decision",
    decisions: { accept: "Accept", amend: "Amend", decline: "Decline" },
    note: "Note",
    version: (/** @type {number} */ n, /** @type {string} */ who, /** @type {string} */ when) =>
      `Version ${n}, made ${when}${who ? ` by ${who}` : ""}`,
    sign: "Sign off",
    sign_lead: "Signing freezes this version. A later change makes a new version.",
    sign_name: "Name",
    sign_registration: "Registration number",
    sign_date: "Date",
    sign_note: "Note with the signature",
    sign_button: "Sign this version",
    signed: (/** @type {string} */ name, /** @type {string} */ registration, /** @type {string} */ when) =>
      `Signed by ${name}${registration ? ` (${registration})` : ""} on ${when}. This version is frozen.`,
    new_version: "Make a new version",
    undecided: (/** @type {number} */ n) => `${count(n, "line", "lines")} not decided yet: accept, amend or decline before signing.`,
  },
  paper: { a4: "Paper, A4", letter: "Paper, Letter" },

  stage: {
    label: "Picture. Press Enter to place the point asked for, arrows to move it.",
    loading: "Loading the picture …",
  },
  trouble: {
    unreachable: "The program doesn't answer. Your points are kept on this device and sent when it does.",
  },
};

/** @param {Record<string, string>} table @param {string} key the key itself where no word is known */
export function word(table, key) {
  return table[key] ?? key;
}

/**
 * Fore wording turned into hind wording.
 * @param {string} limb @param {string} text
 */
export function worded_for(limb, text) {
  if (!limb.endsWith("hind")) return text;
  return text.replaceAll("palmar", "plantar").replaceAll("Palmar", "Plantar").replaceAll("MC3", "MT3");
}
