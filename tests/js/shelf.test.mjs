// The shelf of orders: what is shown of each, finding, sorting, the hours of the weeks, orders at the same time, and files that come in.

import assert from "node:assert/strict";
import { test } from "node:test";
import { script } from "./page.mjs";

const { entryOf, first, found, joined, readCard, sorted, stampOf } = await script("shelf_orders");
const { clashes, hoursShort, hoursWords, weeks } = await script("shelf_hours");
const { read, Refused, written } = await script("files");
const { newRecord, wordsOf } = await script("records");

const NOW = Date.parse("2027-05-03T12:00:00Z"); // a Monday
const TODAY = "2027-05-03";
let made = 0;

/** An order as it is kept. @param {string} name @param {string} ready @param {Record<string, any>} [more] of the record, and `values` */
function order(name, ready, { values = {}, ...more } = {}) {
  made += 1;
  const record = newRecord({ id: `o${made}`, place: "order", calculator: "order", values: { name, ready_at: ready, guests: "20", ...values }, now: NOW - 10_000 + made });
  return { ...record, ...more };
}

/** It on the shelf, with spells of work. @param {any} record @param {any} [spells] */
const entry = (record, spells = {}) => entryOf(record, { of: stampOf(record), hands: [], oven: [], ...spells });
const names = (/** @type {any[]} */ entries) => entries.map(({ name }) => name);

test("an order is shown by what was typed; what calc told of it fills the gaps", () => {
  const typed = entryOf(order("Plum", "2027-06-05 14:30", { values: { "quote.0.customer": " Quince " }, state: "paid", away: 5 }), null);
  assert.deepEqual([typed.day, typed.time, typed.guests, typed.customer, typed.state, typed.away, typed.isFresh], ["2027-06-05", "14:30", "20", "Quince", "paid", true, false]);
  const words = order("Plum", "June 5, 2027 2:30 PM");
  assert.equal(entryOf(words, null).day, "");
  assert.deepEqual([entry(words, { ready: "2027-06-05T14:30" }).day, entry(words, { ready: "2027-06-05T14:30" }).time], ["2027-06-05", "14:30"]);
  const unread = newRecord({ id: "t", place: "order", calculator: "order", values: {}, now: NOW, text: 'name = "Medlar"' });
  const told = entry(unread, { name: "Medlar", guests: 12, customer: "Sloe", ready: "2027-06-05T10:00" });
  assert.deepEqual([told.name, told.guests, told.customer, told.day, told.state], ["Medlar", "12", "Sloe", "2027-06-05", "asked"]);
});

test("a card of an earlier state of the order is out of date, and one that does not read is none", () => {
  const record = order("Plum", "2027-06-05 14:30");
  assert.ok(entry(record).isFresh);
  assert.ok(!entryOf({ ...record, changed: record.changed + 1 }, { of: stampOf(record) }).isFresh);
  for (const text of ["", "{", "null", "[]", '{"of":1}']) assert.equal(readCard(text), null, text);
  assert.equal(entryOf(order("Plum", "2027-13-45 14:30"), null).day, ""); // a day that is none
});

test("orders are found by name, customer, colour and day, whatever the accents and capitals", () => {
  const all = [
    entryOf(order("Crème de cassis", "2027-10-16 18:00", { values: { "tiers.0.rows.0.colour": "Rose" } }), null),
    entryOf(order("Plum", "2027-10-23 18:00", { values: { "quote.0.customer": "Mrs Quince", "tiers.0.colour": "ivory" } }), null),
    entryOf(order("Sloe", "2027-11-06 18:00", { values: { "tiers.0.rows.0.colour": "rose" } }), null),
  ];
  assert.deepEqual(names(found(all, "creme")), ["Crème de cassis"]);
  assert.deepEqual(names(found(all, "QUINCE")), ["Plum"]);
  assert.deepEqual(names(found(all, "rose oct")), ["Crème de cassis"]);
  assert.deepEqual(names(found(all, "2027-10-23")), ["Plum"]);
  assert.deepEqual(names(found(all, "saturday 6 november")), ["Sloe"]);
  assert.deepEqual(names(found(all, "  ")), names(all));
  assert.deepEqual(found(all, "rose ivory"), []);
});

test("the next order stands first, a month on each board; those gone by come last, the latest of them first", () => {
  const all = [
    ["old", "2027-01-02 10:00"], ["soon", "2027-05-03 16:00"], ["june", "2027-06-01 09:00"], ["sooner", "2027-05-03 09:00"], ["someday", "in summer"], ["just", "2027-05-02 10:00"],
  ].map(([name, ready]) => entryOf(order(name, ready), null));
  const shelves = sorted(all, "date", TODAY).map(({ title, entries }) => [title, ...names(entries)]);
  assert.deepEqual(shelves, [["May 2027", "sooner", "soon"], ["June 2027", "june"], ["No day yet", "someday"], ["Gone by", "just", "old"]]);
  assert.deepEqual(names(sorted(all, "name", TODAY)[0].entries), ["june", "just", "old", "someday", "soon", "sooner"]);
  assert.deepEqual(names(sorted(all, "changed", TODAY)[0].entries), ["just", "someday", "sooner", "june", "soon", "old"]);
  assert.deepEqual(first(sorted(all, "date", TODAY), 3).map(({ title, entries }) => [title, ...names(entries)]), [["May 2027", "sooner", "soon"], ["June 2027", "june"]]);
  assert.deepEqual(sorted([], "date", TODAY), []);
});

test("hours are added up by day and week, from today on, of what is still to be made", () => {
  const all = [
    entry(order("a", "2027-05-08 18:00", { state: "promised" }), { hands: [["2027-05-02T10:00", "2027-05-02T12:00"], ["2027-05-05T22:00", "2027-05-06T01:30"]] }),
    entry(order("b", "2027-05-08 18:00"), { hands: [["2027-05-06T09:00", "2027-05-06T10:00"]] }),
    entry(order("c", "2027-06-08 18:00", { state: "paid" }), { hands: [["2027-06-06T09:00", "2027-06-06T09:45"]] }),
    entry(order("made", "2027-05-08 18:00", { state: "made" }), { hands: [["2027-05-06T09:00", "2027-05-06T19:00"]] }),
    entry(order("away", "2027-05-08 18:00", { away: 1 }), { hands: [["2027-05-06T09:00", "2027-05-06T19:00"]] }),
  ];
  const [one, two, ...none] = weeks(all, TODAY);
  assert.deepEqual([one.monday, one.sure, one.asked], ["2027-05-03", 210, 60]);
  assert.deepEqual(one.days.map(({ sure, asked }) => sure + asked), [0, 0, 120, 150, 0, 0, 0]);
  assert.deepEqual([two.monday, two.sure, two.days[6].sure], ["2027-05-31", 45, 45]); // a Sunday belongs to the week of the Monday before
  assert.deepEqual(none, []);
});

test("two orders clash where the same hands or the same oven are wanted at one time", () => {
  const a = entry(order("a", "2027-05-08 18:00"), { hands: [["2027-05-06T09:00", "2027-05-06T11:00"], ["2027-05-07T09:00", "2027-05-07T10:00"]], oven: [["2027-05-06T11:00", "2027-05-06T12:30"]] });
  const b = entry(order("b", "2027-05-08 18:00"), { hands: [["2027-05-06T10:15", "2027-05-06T12:00"], ["2027-05-07T08:00", "2027-05-07T12:00"]], oven: [["2027-05-06T12:00", "2027-05-06T13:00"]] });
  const c = entry(order("c", "2027-05-08 18:00"), { hands: [["2027-05-06T12:00", "2027-05-06T13:00"]], oven: [["2027-05-06T13:00", "2027-05-06T14:00"]] }); // right after b
  const told = clashes([c, b, a], TODAY);
  assert.deepEqual(
    told.map(({ kind, entries, begin, end, minutes, spells }) => [kind, names(entries).sort().join(), begin, end, minutes, spells]),
    [["hands", "a,b", "2027-05-06T10:15", "2027-05-06T11:00", 105, 2], ["oven", "a,b", "2027-05-06T12:00", "2027-05-06T12:30", 30, 1]],
  );
  assert.deepEqual(clashes([a, b], "2027-05-08"), []);
  assert.deepEqual(clashes([a, b], "2027-01-01"), []); // too far ahead to be told now
  const finished = { ...a, state: "made" };
  assert.deepEqual(clashes([finished, b], TODAY), []);
  assert.deepEqual(clashes([{ ...a, isFresh: false }, b], TODAY), []); // its timetable may be another by now
});

test("a shelf with very many orders on one day is gone through in the same way", () => {
  const many = Array.from({ length: 1000 }, (_, i) => entry(order(`n${i}`, "2027-05-08 18:00"), { hands: [["2027-05-06T09:00", "2027-05-06T18:00"]] }));
  let compared = 0;
  for (const each of many) {
    const { id } = each;
    Object.defineProperty(each, "id", { get: () => ((compared += 1), id) });
  }
  assert.equal(clashes(many, TODAY).length, 200);
  assert.ok(compared < 100_000, `${compared}`);
});

test("hours are said in words, and to the half hour in a cell", () => {
  assert.deepEqual([0, 45, 60, 560].map(hoursWords), ["0 min", "45 min", "1 h", "9 h 20 min"]);
  assert.deepEqual([5, 30, 60, 95, 560].map(hoursShort), ["½", "½", "1", "1½", "9½"]);
});

test("how far an order has come goes out into a file and comes in again; another word for it is damage", () => {
  const text = written([order("Plum", "2027-06-05 14:30", { state: "paid", away: NOW - 500 }), order("Sloe", "")], "/", NOW);
  assert.deepEqual(read(text, "/", NOW).map(({ state, away }) => [state, away]), [["paid", NOW - 500], [undefined, undefined]]);
  for (const wrong of ['"lost"', "7", "[]"]) assert.throws(() => read(text.replace('"paid"', wrong), "/", NOW), Refused);
});

test("of a file that comes in nothing is doubled, and another version of an order is kept beside it", () => {
  const [plum, sloe, quince] = [order("Plum", "2027-06-05 14:30"), order("Sloe", "2027-07-05 14:30"), order("Quince", "")];
  const there = [plum, sloe];
  const again = joined(there, [plum, sloe].map((each) => ({ ...each, id: "", state: "paid" })));
  assert.deepEqual(again, { fresh: [], versions: [], same: 2 });
  const other = { ...plum, id: "", values: { ...plum.values, guests: "90" } };
  const renamed = { ...sloe, id: "", values: { ...sloe.values, name: "Sloe gin" } };
  const elsewhere = { ...plum, id: "", made: 1, values: { ...plum.values, guests: "70" } }; // begun on another device, for the same occasion
  const { fresh, versions, same } = joined(there, [other, quince, renamed, elsewhere, sloe]);
  assert.deepEqual([fresh.map(wordsOf), same], [[wordsOf(quince)], 1]);
  assert.deepEqual(versions.map(({ title, values }) => [title, values.guests]), [["Plum, version 2", "90"], ["Sloe gin, version 2", "20"], ["Plum, version 3", "70"]]);
  const full = [...there, ...fresh, ...versions];
  assert.deepEqual(joined(full, [other, quince, renamed, elsewhere, sloe]), { fresh: [], versions: [], same: 5 }); // opened once more
});

test("two orders of one name in a file are two where neither is there, and one that is in it twice comes in once", () => {
  const [one, other] = [order("Plum", "2027-06-05 14:30"), order("Plum", "2027-06-05 14:30", { values: { guests: "8" } })];
  const { fresh, versions, same } = joined([], [one, other, { ...one }]);
  assert.deepEqual([fresh.length, versions.length, same], [2, 0, 1]);
});
