/** Every sentence of the page. Words a practice may change come from the program instead. */
import { day } from "./numbers.js";

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
    sample_lead: "Or look around first: an invented horse with X-rays, points and a plan, to try everything on.",
    sample: "Show me the sample horse",
    sample_comes: "The sample horse is coming …",
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
    no_pictures: "Add the pictures of this visit: X-rays as DICOM files, photos of feet and limbs from the camera.",
    add_files: "Add pictures",
    camera: "Camera",
    drop: "or drop files here",
    to_plan: "Plan",
    paper: "Print",
    remove_picture: "Remove from visit",
    adding: (/** @type {string} */ name) => `Adding ${name} …`,
    last_trim_was: (/** @type {string} */ date) => `trimmed ${date}`,
  },

  limbs: {
    "left-fore": "left fore", "right-fore": "right fore",
    "left-hind": "left hind", "right-hind": "right hind",
  },
  views: {
    lateromedial: "side view", dorsopalmar: "front view",
    "foot-side": "foot from the side", "foot-front": "foot from the front",
    "foot-behind": "foot from behind", "foot-above": "foot from above", sole: "sole",
    "limb-side": "limb from the side", "limb-front": "limb from the front",
    "limb-behind": "limb from behind", "limb-hanging": "limb hanging free",
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
    lead_photo: "Asked once. Look at the photo and say what it is; the points to place follow from that.",
    protocol: "What is this picture?",
    shows: {
      radiograph: "X-ray of the foot", foot: "Photo of the foot", limb: "Photo of the whole limb",
    },
    others: { foot: "It is a photo, not an X-ray", radiograph: "It is a photo of an X-ray" },
    toward_unknown: "In the picture, the toe, the front or the outer side points to the",
    toward_front: "In the picture, the front of the horse is towards the",
    toward_toe: "In the picture, the toe points to the",
    toward_lateral: "In the picture, the outer (lateral) side of the foot is on the",
    shoeing: "Bare or shod?",
    bare: "Bare",
    shod: "Shod",
    loading: "Did the horse stand on this foot?",
    loading_limb: "Did the limb stand or hang free?",
    loadings: {
      "weight-bearing": "Standing on it", "not-loaded": "Lifted, hanging free", "not-stated": "Not known",
    },
    letter: "Is there a lead letter in the picture?",
    letters: { none: "None", L: "L", R: "R" },
    letter_side: "The letter lies on the",
    scale: "How large is it? Without a scale there are no millimetres.",
    scale_photo: "How large is it? Without a scale there are no millimetres.",
    scales: {
      automatic: "What the file says",
      card: "The printed card is in the picture",
      ball: "A marker ball is in the picture",
      marker: "Something of known length is in the picture",
      magnification: "I know the magnification",
      distances: "I measured the distances",
      none: "No scale: angles and ratios only",
    },
    looking: "Looking …",
    find_card: "Find the card",
    find_again: "Look again",
    find_ball: "Find the ball",
    card_found: (/** @type {number} */ n, /** @type {string} */ paper) =>
      `The card was found: ${n} corners, printed on ${paper}. Look at the small squares in the picture: each must lie on a corner of the card.`,
    papers: /** @type {Record<string, string>} */ ({ a4: "A4", letter: "Letter" }),
    card_stood: "How was the card set parallel to the limb?",
    card_by_eye: "By eye",
    card_along_board: "Along a board, its distance by tape",
    card_distance: "How far in front of the limb did the card stand?",
    card_distance_hint: "Towards the camera, in mm: 0 beside the middle of the limb, with a minus when it stood behind.",
    card_more: "More about the card",
    card_bar: "What a ruler reads on its 100 mm bar, mm",
    camera_distance: "Camera to card, mm, if you measured it",
    no_ball: "No ball is to be seen: look at the picture, or give the scale in another way.",
    which_ball: "Which one is it? Tap it here or in the picture.",
    ball_candidate: (/** @type {number} */ n, /** @type {number} */ px) => `${n}: ${px.toFixed(1)} pixels across`,
    ball_kept: (/** @type {number} */ px) => `The ball measures ${px.toFixed(1)} pixels across.`,
    ball_mm: "Diameter of the ball, mm",
    ball_distance: "How much nearer to the X-ray tube than the middle of the foot did it lie?",
    ball_distance_hint: "In mm: 0 when it lay in the foot's middle plane, with a minus when it lay nearer to the plate.",
    marker_distance_photo: "How far in front of the limb did it lie?",
    distance_mm: "mm",
    distance_unknown: "I don't know",
    marker_mm: "Its length, mm",
    marker_hint: "You will then place its two ends first.",
    magnification: "Magnification, for example 1.12",
    source_to_detector: "X-ray tube to plate, mm",
    object_to_detector: "Middle of the foot to plate, mm",
    done: "That is right",
    missing: (/** @type {string} */ what) => `Still to answer: ${what}`,
    missing_names: {
      side: "left or right", end: "fore or hind", protocol: "what the picture is",
      toward: "which way it points", shoeing: "bare or shod", loading: "standing on it",
      number: "the number for the scale", scale: "how large it is", card: "the card in the picture",
      ball: "the ball in the picture", distance: "how far it stood from the limb",
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
    check: "Is the view straight?",
    finding: "How to find it",
    mistakes: "Often mistaken",
    skip: "Can't see it: skip",
    placed_hint: "Tap the picture to place it. Hold to aim with the loupe.",
    proposed: "Proposed by the program",
    proposed_lead: "Look whether the dashed mark lies right. If not, drag it or tap the right place.",
    confirm: "It lies right there",
    stroke: "Draw along this edge",
    stroke_title: "Draw along the edge",
    stroke_lead: (/** @type {string} */ first, /** @type {string} */ last) =>
      `With one finger or the mouse held down, from “${first}” to “${last}”. Both points come to lie on the edge.`,
    stroke_leave: "Place single points instead",
    drawing_of: (/** @type {string} */ title) => `Drawing with the place of: ${title}`,
    done: "Every point is placed or skipped",
    done_lead: "Read the numbers. Drag any point to correct it.",
    extras: (/** @type {number} */ n) => `Place ${count(n, "extra point", "extra points")}`,
    checks: (/** @type {number} */ n) => `Check that the view is straight (${count(n, "point", "points")})`,
    refine: "Move both ends exactly onto the edges",
    to_numbers: "Read the numbers",
    to_visit: "To the visit",
    to_plan: "To the plan",
    skipped_some: (/** @type {number} */ n) =>
      `${count(n, "point was", "points were")} skipped; see the list of points.`,
  },

  settling: {
    no_line: "No clear straight edge lies along that stroke. Draw it again, or place the points one by one.",
  },

  points: {
    title: "Points",
    proposed: "proposed",
    placed: "placed",
    skipped: "skipped",
    open: "to do",
    extra: "extra",
    check: "check",
    more: "if wanted",
    check_title: "Is the view straight?",
    more_title: "More, if you want them",
    remove: "Remove point",
  },

  numbers: {
    title: "Numbers",
    empty: "A number appears as soon as its last point is placed.",
    on_their_way: "The numbers of these points aren't there yet: the program hasn't answered.",
    waiting: "Not measured yet",
    folded: (/** @type {number} */ n) => `${n} more when further points are placed`,
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

  checks: {
    title: "Fit to measure?",
    verdicts: { fit: "fit", caution: "with caution", unfit: "not fit", "not-checked": "not checked" },
    touches: (/** @type {string[]} */ titles) =>
      `Touches: ${titles.slice(0, 6).join("; ")}${titles.length > 6 ? ` and ${titles.length - 6} more` : ""}`,
    beside: (/** @type {string} */ titles) => `With caution: ${titles}`,
  },

  dots: {
    title: "Stick-on dots in the picture?",
    lead: "Say which two colours the dots have. What is found is only offered: look, then confirm.",
    colour: (/** @type {number} */ n) => (n === 1 ? "First colour" : "Second colour"),
    tap: "Tap one in the picture",
    tapped: "As tapped in the picture",
    tap_now: "Now tap the middle of a dot of this colour.",
    colours: { orange: "Orange", yellow: "Yellow", green: "Green", blue: "Blue", pink: "Pink", white: "White" },
    find: "Find the dots",
    offered: (/** @type {number} */ n) => `${count(n, "dot was", "dots were")} found.`,
    offered_lead: "They stand in the picture with a question mark and count for nothing until you confirm them.",
    name_them: "Say for each which joint it marks, or drop it.",
    number: (/** @type {number} */ n) => `Dot ${n}`,
    unnamed: "which joint?",
    confirm: "Confirm",
    drop: "Not this",
    confirm_all: "Confirm all",
    drop_all: "None of them",
  },

  posture: {
    title: "Standing and hanging free",
    lead: "What disappears when the limb hangs free is how the horse stood; what stays is how the limb is built.",
    standing: "Standing",
    gone: "Disappears",
    stays: "Stays",
    joints: "One joint in two side views",
    joints_lead: "How much more the coffin joint is flexed in the second picture; say, on a wedge against the flat.",
    first: "First",
    second: "Second",
    more: "More flexed by",
  },

  readers: {
    title: "Readers",
    blind_switch: "Read it blind",
    blind_means:
      "Nobody sees your points and you see nobody's until two readers are done. A blind reading is used for plan and paper only when somebody picks it.",
    mine: (/** @type {number} */ turn, /** @type {boolean} */ blind, /** @type {boolean} */ done) =>
      `Your ${turn === 1 ? "reading" : `reading no. ${turn}`}: ${blind ? "blind" : "open"}, ${done ? "done" : "in progress"}.`,
    frozen: "A blind reading that is done stays as it is.",
    done: "I am done",
    done_means_blind: "After that the reading can't be changed.",
    done_means_open: "Then it counts when you read the picture again.",
    again: "Read it again, blind",
    who: "Who has read it",
    look: "Look again",
    nobody: "Nobody yet.",
    you: (/** @type {string} */ name) => `${name} (you)`,
    line: (/** @type {{turn: number, sight: string, done: boolean, seen: boolean}} */ each) =>
      [each.turn > 1 && `no. ${each.turn}`, each.sight, each.done ? "done" : each.sight === "blind" && "in progress", !each.seen && "hidden"].filter(Boolean).join(", "),
    working: "used for plan and paper",
    pick: "Use for plan and paper",
    agree: "How far they agree",
    pair_names: (/** @type {{between: string, first: {reader: string, turn: number}, second: {reader: string, turn: number}}} */ found) => {
      const name = (/** @type {{reader: string, turn: number}} */ who) =>
        found.between === "turns" ? `${who.reader}, no. ${who.turn}` : who.reader;
      return { first: name(found.first), second: name(found.second) };
    },
    points: "Points",
    points_hint: (/** @type {string} */ unit) =>
      unit === "mm" ? "How far apart, in millimetres." : "How far apart, in pixels: the picture has no scale.",
    split: (/** @type {string} */ across, /** @type {string} */ along) => `across ${across}, along ${along}`,
    only: (/** @type {string} */ name) => `placed by ${name} only`,
    no_direction: "no direction to split by",
    wide: "Further apart than the usual spread.",
    numbers: "Numbers",
    numbers_hint: (/** @type {string} */ first, /** @type {string} */ second, /** @type {string} */ between, /** @type {number} */ fewest) =>
      `${first} less ${second}.` +
      (between === "readers" ? ` What such differences usually are is told from ${fewest} pictures that both read blind.` : ""),
    both: (/** @type {string} */ first, /** @type {string} */ second) => `${first} and ${second}.`,
    detectable: (/** @type {string} */ change) => `Smallest change that shows: ${change}.`,
    limits: (/** @type {string} */ low, /** @type {string} */ high, /** @type {number} */ pairs) =>
      `95 % of differences lie from ${low} to ${high} (${pairs} pairs).`,
    icc: (/** @type {string} */ value, /** @type {string} */ low, /** @type {string} */ high) =>
      `ICC(2,1) ${value} (${low} to ${high}).`,
    too_few: (/** @type {number} */ pairs, /** @type {number} */ fewest) =>
      `Limits and ICC: too few to tell (${pairs} of ${fewest} pairs).`,
    wide_number: "More than placing explains.",
  },

  tools: {
    points: "Points",
    points_hint: "Tap places a point, drag moves a point or the picture",
    brightness: "Brightness",
    brightness_hint: "Brightness, contrast, gamma, local contrast (B). Drag up for brighter, sideways for contrast; at any time with the right button",
    larger: "Larger",
    smaller: "Smaller",
    fit: "Fit",
    undo: "Undo",
    redo: "Redo",
    loupe: "Loupe",
    settles: "Settle",
    settles_hint: "Points settle on the edge that is near. Hold Shift to place one just where you put it",
    lines: "Lines",
    lines_hint: "Show all construction lines, or only those of the chosen number",
    changed: "Changed.",
    follow: "Follow",
    follow_hint: "Each next point comes up near to where it should be (F)",
    beside: "Beside",
    beside_hint: "Left and right, or before and after, side by side (V)",
    turning: "Turn",
    turning_hint: "Turn or mirror the picture, for the eye alone (T)",
    keys: "Keys",
    panel: "Panel",
  },

  greys: {
    title: "Greys of the picture",
    brightness: "Brightness",
    contrast: "Contrast",
    gamma: "Middle greys",
    gamma_hint: "Gamma: brighter or darker between black and white",
    local_hint: "Draws bone and soft parts together and fine lines apart",
    local: "Local contrast",
    invert: "Invert",
    back: "As it came",
    window: (/** @type {number} */ n) => `Window ${n}`,
  },
  beside: {
    title: "A second picture beside it",
    which: "Beside it:",
    none: "nothing",
    nothing: "This horse has no other picture of this view yet.",
    mirror: "Mirror the second",
    same_scale: "Both move together, millimetre for millimetre.",
    no_scale: "Both move together. One has no scale: they are shown equally wide.",
    label: "Second picture, moves with the first.",
  },
  lie: {
    title: "How the picture lies",
    left: "Quarter left",
    right: "Quarter right",
    fine: "By degrees",
    degrees: (/** @type {number} */ turn) => ` ${turn < 0 ? "\u2212" : ""}${Math.abs(turn).toFixed(1)}°`,
    mirror: "Mirror",
    upright: "As it was taken",
    mirrored: "Mirrored.",
    mirrored_means: "Left and right are exchanged on this screen only; points, numbers and paper stay as the picture was taken.",
    mirror_back: "Mirror back",
  },
  ways: {
    ends: {
      toe: "toe (dorsal)", heel: "heel (palmar)", front: "front", back: "back",
      outer: "outer (lateral)", inner: "inner (medial)",
    },
    sides: { left: "on the left", right: "on the right", top: "above", bottom: "below" },
    mirrored: "mirrored",
  },

  keys: {
    title: "Keys",
    list: [
      ["Enter", "confirm the point proposed; where none is, place it in the middle of the view"],
      ["Shift+Enter, Shift and tap", "place it just there: not as proposed, not moved onto an edge"],
      ["Arrows", "move the chosen point by one screen pixel, with Shift by ten; without a point, move the picture"],
      ["Tab, Shift+Tab", "next and previous point"],
      ["Delete", "remove the chosen point"],
      ["S", "skip the point asked for"],
      ["Ctrl+Z, Ctrl+Shift+Z", "undo, redo"],
      ["+ and \u2212", "larger, smaller"],
      ["0 and 1", "whole picture, one to one"],
      ["Space and drag", "move the picture"],
      ["B", "greys: the arrows or a drag change them; B again puts the strip away"],
      ["G, Shift+G", "middle greys brighter, darker"],
      ["C, Shift+C", "more, less local contrast"],
      ["I", "invert: black for white"],
      ["R", "greys as the picture came"],
      ["T", "turning: the arrows or a drag turn it; T again puts the strip away"],
      ["Q, Shift+Q", "turn by a quarter, right or left"],
      ["M", "mirror left for right, for the eye alone"],
      ["U", "upright, as it was taken"],
      ["F", "each next point comes up near to where it should be, or not"],
      ["V", "another picture of the horse beside it"],
      ["L", "loupe on and off"],
      ["Esc", "let go of the chosen point"],
    ],
  },

  keeping: {
    saved: "Saved",
    saving: "Saving …",
    waiting: "Not saved yet, will keep trying",
    conflict: "Not saved: decide first",
  },
  conflict: {
    sentence: (/** @type {string} */ name) =>
      `You also moved points on another device, as ${name}. Everything else was put together; decide on these.`,
    mine: "Keep it as here",
    theirs: "Take the other place",
    theirs_removed: "Take it away",
    there: "the other place",
  },

  others: {
    title: "Other readers' points",
    one: (/** @type {string} */ name, /** @type {number} */ n) => `${name}, ${count(n, "point", "points")}`,
    hide: "Hide",
    show: "Show other readers' points",
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
    later: (/** @type {number} */ week) => `Now, and in week ${week} when nothing else is done`,
    why: "Why",
    expected: "Expected",
    caution: "Caution",
    watch: "Watch",
    source: "Source",
    decision: "Decision",
    decisions: { accept: "Accept", amend: "Amend", decline: "Decline" },
    note: "Note",
    otherwise: (/** @type {string} */ decision, /** @type {string} */ note) =>
      `Somebody else saved this line at the same time. Yours was: ${decision === "open" ? "not decided" : decision}${note ? `, "${note}"` : ""}.`,
    use_mine: "Use mine",
    leave_theirs: "Leave theirs",
    answer_first: "A line was decided by two at the same time: say first which decision stands.",
    look_again: "The plan was changed by somebody else just now. Look at it again before signing.",
    replaced: (/** @type {number[]} */ lines, /** @type {boolean} */ is_signed) =>
      `${is_signed ? "The plan was signed" : "The plan was made again"} by somebody else meanwhile. Your last decision on line ${lines.join(", ")} is not in it.`,
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
  fit: {
    title: "Best fit: say what a foot should come to",
    lead: "Nothing is sought that you don't switch on. The bands are where people usually begin; change them as you see fit.",
    foot: "Foot",
    from: "from",
    to: "to",
    one: "counts as one",
    own_band: "band set by hand",
    ask: "Work it out",
    refused: "Nothing is worked out",
    left_out: "Left out",
    conflicts: "Against one another",
    nothing: "Nothing that is switched on lies surely outside its band.",
    no_change: "Nothing: no change within the limits helps.",
    means: { trim: "Trim only", shoe: "Shoe only", both: "Trim and shoe" },
    states: { reached: "reached", nearer: "nearer", missed: "no nearer", kept: "kept" },
    beyond_reach: "beyond reach",
    costs: "What it costs",
    in_the_way: "What stands in the way",
    later: "Visits after this one",
    take: "Take this way",
  },
  trying: {
    title: "Try it",
    lead: "Pull the round grips in the picture, or the bars. Nothing is kept until you put it in the plan.",
    refused: "Nothing can be tried",
    waiting: "Working it out …",
    missing: "What these amounts would do isn't there yet: the program hasn't answered.",
    unread: "Place this picture's points first.",
    by: (/** @type {string} */ who) => `On the points of ${who}.`,
    amounts: /** @type {Record<string, string>} */ ({
      trim_toe_mm: "Off the toe", trim_heel_mm: "Off the heels", dress_toe_mm: "Toe wall dressed", wedge_deg: "Heel wedge",
      breakover_back_mm: "Breakover back", branch_longer_mm: "Branches longer", shoe_thickness_mm: "Shoe thicker",
      pad_mm: "Pad", trim_medial_mm: "Off the medial side", trim_lateral_mm: "Off the lateral side",
      ml_wedge_deg: "Wedge, lateral side up", extend_medial_mm: "Medial branch wider", extend_lateral_mm: "Lateral branch wider",
    }),
    grips: /** @type {Record<string, string>} */ ({
      trim_toe_mm: "toe", trim_heel_mm: "heels", wedge_deg: "wedge", breakover_back_mm: "breakover",
      branch_longer_mm: "branches", trim_medial_mm: "medial side", trim_lateral_mm: "lateral side", ml_wedge_deg: "wedge",
    }),
    shoe: {
      title: "Shoe", kind: "Kind of shoe", open: "Not chosen", fitting: "Does all that is asked", others: "Others",
      frog_support: "Frog and sole", web: "Web, mm", roll: "Roll, mm",
      frog_supports: { none: "Free", plate: "Plate on the frog", pad: "Pad on the frog", "pour-in": "Poured in" },
      not_given: (/** @type {string} */ what) => `As listed it doesn't give all that is asked: ${what}.`,
    },
    held: (/** @type {string} */ amount, /** @type {string} */ at) => `${amount} is held at ${at}.`,
    expected: "Expected",
    all: (/** @type {number} */ moved, /** @type {number} */ still) => `All ${count(moved, "number", "numbers")} that move; ${still} stay as they are`,
    no_growth: (/** @type {string} */ why) => `What growth will do isn't foreseen: ${why}.`,
    nothing_moves: "Nothing is changed yet.",
    in_week: (/** @type {number} */ week, /** @type {string} */ value) => `week ${week}: ${value}`,
    review: (/** @type {number} */ week, /** @type {string} */ title) =>
      title ? `Look again in week ${week}: then ${title} has surely left its band.` : `Look again by week ${week}.`,
    lever: (/** @type {string} */ more, /** @type {string} */ from, /** @type {string} */ to) => (from === to ? more : `${more} (${from} to ${to})`),
    more: (/** @type {number} */ percent) => `${percent} % more`,
    less: (/** @type {number} */ percent) => `${percent} % less`,
    mid_stance: "In mid-stance",
    at_breakover: "When the heel leaves the ground",
    levers: "Levers about the coffin joint",
    take: "Put in the plan",
    nothing: "Back to nothing",
    outlook: (/** @type {string} */ limb) => `What to expect: ${limb}`,
    links: "Try other amounts on:",
  },
  paper: { a4: "Print, A4", letter: "Print, Letter" },

  stage: {
    label: "Picture. Press Enter to place the point asked for, arrows to move it.",
    loading: "Loading the picture …",
  },
  trouble: {
    too_late: "This blind reading was done on another device. Points moved here after that are not part of it.",
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

/** What lies at an end of the stage. @param {import("../state/ways.js").Ways} ways @param {import("../state/ways.js").What} what */
export const way_words = (ways, what) => worded_for(ways.limb, words.ways.ends[what]);

/** Which foot is shown, with the letter that the film should bear. @param {import("../state/ways.js").Ways} ways */
export function which_foot({ limb, date, mirrored }) {
  return [limb.charAt(0).toUpperCase(), word(words.limbs, limb), date && day(date), mirrored && words.ways.mirrored].filter(Boolean).join(" · ");
}

/** For who can't see the stage. @param {import("../state/ways.js").Ways | null} ways */
export function ways_said(ways) {
  if (!ways) return "";
  const ends = ways.ends.map(({ what, end }) => `${way_words(ways, what)} ${words.ways.sides[end]}`);
  return `${which_foot(ways)}: ${ends.join(", ")}.`;
}
