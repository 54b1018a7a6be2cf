/** Two who changed the same: what comes in, what stays, what is asked about. */
import assert from "node:assert/strict";
import test from "node:test";
import * as merge from "../../src/page/state/merge.js";
import { others_among } from "../../src/page/state/others.js";
import * as points from "../../src/page/state/points.js";
import { kept_same } from "../../src/page/state/same.js";
import { begin, next } from "../../src/page/state/state.js";

test("what only one of two changed comes in; what both changed differently is asked about", () => {
  const at = (x) => ({ x, y: 0, how: "by-hand" });
  const base = { a: at(1), b: at(1), c: at(1), d: at(1), e: at(1) };
  const mine = { a: at(2), b: at(1), c: at(2), d: at(2), f: at(1) }; // e taken away
  const theirs = { a: at(1), b: at(3), c: at(3), d: at(2), e: at(1), g: at(1) };
  const { brought, clashes } = merge.told_apart(base, mine, theirs);
  assert.deepEqual(brought, { b: at(3), g: at(1) });
  assert.deepEqual(clashes, ["c"]);
  assert.deepEqual(merge.with_brought(mine, brought), { a: at(2), b: at(3), c: at(2), d: at(2), f: at(1), g: at(1) });
});

test("what was sent from here and came back is nobody else's change", () => {
  const at = (x) => ({ x, y: 0, how: "by-hand" });
  const told = merge.told_apart({ a: at(1) }, { a: at(3) }, { a: at(2) }, { a: at(2) });
  assert.deepEqual(told, { brought: {}, clashes: [] });
});

test("undo takes away one's own steps and never what came from another device", () => {
  let p = points.place(points.place(points.no_points, "a", 1, 1), "b", 2, 2);
  p = points.bring(p, { c: { x: 3, y: 3, how: "by-hand" } });
  p = points.undo(points.undo(p));
  assert.deepEqual(Object.keys(p.now.landmarks), ["c"]);
  assert.deepEqual(Object.keys(points.redo(points.redo(p)).now.landmarks).sort(), ["a", "b", "c"]);
});

test("points that both moved are asked about one by one, and the revision seen is named last", () => {
  const at = (x) => ({ x, y: 0, how: "by-hand" });
  let s = next(begin({ reader: "Ada" }), { type: "go", place: { screen: "picture", case_id: "a", visit: "1", digest: "d" } });
  s = next(s, { type: "reading", digest: "d", revision: 1, landmarks: { a: at(1), b: at(1) }, base: { a: at(1), b: at(1) }, kept: {}, keeping: "saved", turn: 1, sight: "open", done: false });
  s = next(next(s, { type: "move", id: "a", x: 2, y: 0, run: "" }), { type: "move", id: "b", x: 2, y: 0, run: "" });
  const theirs = { landmarks: { a: at(5), b: at(6), c: at(7) }, revision: 4, sight: "open", done: false };
  s = next(s, { type: "elsewhere", digest: "d", reader: "Ada", turn: 1, theirs, sent: null });
  assert.equal(s.open?.keeping, "conflict");
  assert.deepEqual(s.open?.theirs?.clashes, ["a", "b"]);
  assert.equal(s.open?.points.now.landmarks.c.x, 7);
  assert.equal(s.open?.revision, 1);
  s = next(s, { type: "settle", id: "a", whose: "theirs" });
  assert.equal(s.open?.points.now.landmarks.a.x, 5);
  s = next(s, { type: "settle", id: "b", whose: "mine" });
  assert.equal(s.open?.points.now.landmarks.b.x, 2);
  assert.equal(s.open?.revision, 4);
  assert.equal(s.open?.keeping, "saving");
  const other = next(s, { type: "elsewhere", digest: "d", reader: "Ben", turn: 1, theirs, sent: null });
  assert.deepEqual(other.open, s.open);
});

test("what was saved for another reader leaves this one's reading alone", () => {
  let s = next(begin({ reader: "Ada" }), { type: "go", place: { screen: "picture", case_id: "a", visit: "1", digest: "d" } });
  s = next(s, { type: "reading", digest: "d", revision: 1, landmarks: {}, base: {}, kept: {}, keeping: "saved", turn: 1, sight: "open", done: false });
  const save = { type: "saved", digest: "d", landmarks: { a: { x: 1, y: 1, how: "by-hand" } }, revision: 9 };
  assert.deepEqual(next(s, { ...save, reader: "Ben" }).open, s.open);
  assert.equal(next(s, { ...save, reader: "Ada" }).open?.revision, 9);
});

test("decisions on different lines are put together, and one on the same line is asked about", () => {
  const line = (decision, note = "") => ({ decision, note });
  const base = [line("open"), line("open"), line("open"), line("open")];
  const { lines, asks } = merge.decided_by_both(base,
    [line("accept"), line("open"), line("decline", "no"), line("accept")],
    [line("open"), line("amend", "less"), line("accept"), line("accept")]);
  assert.deepEqual(lines, [line("accept"), line("amend", "less"), line("accept"), line("accept")]);
  assert.deepEqual(asks, { 2: line("decline", "no") });
});

test("of the others only the newest readings that may be seen are shown, each under its own name", () => {
  const at = { tip: { x: 1, y: 1, how: "by-hand" } };
  const line = (reader, turn, more) => ({ reader, turn, sight: "open", done: false, seen: true, landmarks: at, ...more });
  const all = [line("Me", 1), line("Ben", 1), line("Ben", 2, { landmarks: { tip: { x: 2, y: 2, how: "by-hand" } } }), line("Ada", 1),
    line("Cora", 1, { sight: "blind", done: true, revealed: true }), line("Cora", 2, { sight: "blind", seen: false, landmarks: undefined }), line("Dan", 1, { seen: false, landmarks: undefined }), line("Eve", 1, { landmarks: {} })];
  assert.deepEqual(others_among(all, "Me").map((each) => [each.reader, each.landmarks.tip.x]), [["Ada", 1], ["Ben", 2], ["Cora", 1]]);
});

test("what came again unchanged keeps its identity", () => {
  const before = { visits: [{ id: "1", pictures: [{ digest: "d" }] }, { id: "2", pictures: [] }], yard: "A" };
  assert.equal(kept_same(before, structuredClone(before)), before);
  const after = kept_same(before, { ...structuredClone(before), yard: "B" });
  assert.equal(after.visits, before.visits);
  assert.equal(after.yard, "B");
  assert.deepEqual(kept_same([1, 2], [1]), [1]);
  assert.deepEqual(kept_same({ a: undefined }, {}), {});
});
