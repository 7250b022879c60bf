// Answers one vehicle from guides/<platform>.json, as a finder of your own would. Nothing is
// needed besides: copy it, or read it as a description of the format.
//
//   import { answer } from "./answer.js";
//   const guide = await (await fetch("guides/H7.json")).json();
//   answer(guide, { Years: 2011, "Front suspension": "Air beam", "Beam arm": null, "Chassis number": "41350" });
//
// The vehicle is told by Years and by the names of the guide's traits: a value as the guide writes it, null where
// the trait does not apply, a serial number as on the plate, a day as 2009-03-15. What is left out is not known.
//
//   { exists: false }                          no vehicle is such: name no part, and ask again
//   { exists: true, ask: ["Beam arm"] }        vehicles that are such differ in this: ask, and name no part yet
//   { exists: true, ask: [], places: [...] }   what belongs at each place that the vehicle has
//
// A place has its position and the case that holds. Only where `outcome` is "fitted" and `settled` is not false
// does it name parts: `alternatives` in order of preference, of which one is taken, with all its parts. "none" is
// nothing on purpose; of "planned", "ask", "gap", "conflict" and of what is not settled no part is known.
// `rules` are the compatibility rows that hold for the vehicle.

// Whether a value that was told is one of those of a condition: values, null for 'does not apply', or
// pairs of ends for what stands on a line.
function among(values, told) {
  return values.some((v) => (Array.isArray(v) ? within(v, told) : v === told));
}

// Whether a serial number or a day lies between two, both included. Numbers are compared within the
// same letters; case, spaces, hyphens and zeros before the digits make no difference.
function within([from, to], told) {
  if (told === null) return false;
  if (/^\d{4}-\d\d-\d\d$/.test(from)) return from <= told && told <= to;
  const [a, b, x] = [from, to, String(told)].map((text) => /^([a-z]*)[\s-]*0*(\d+)$/i.exec(text.trim()));
  if (!x || x[1].toLowerCase() !== a[1].toLowerCase()) return false;
  return BigInt(a[2]) <= BigInt(x[2]) && BigInt(x[2]) <= BigInt(b[2]);
}

// Whether a box of vehicles has none that is as told. No years are any, and a trait that the box does not name is left free.
function misses(box, vehicle) {
  if (box.years.length && vehicle.Years !== undefined && !box.years.some(([from, to]) => from <= vehicle.Years && vehicle.Years <= to)) return true;
  return Object.entries(box.traits ?? {}).some(([trait, values]) => vehicle[trait] !== undefined && !among(values, vehicle[trait]));
}

// What any of some boxes asks of a vehicle that is not told.
function untold(boxes, vehicle) {
  const names = boxes.flatMap((box) => [...(box.years.length ? ["Years"] : []), ...Object.keys(box.traits ?? {})]);
  return [...new Set(names)].filter((name) => vehicle[name] === undefined);
}

export function answer(guide, vehicle) {
  const known = ["Years", ...guide.traits.map((t) => t.trait)];
  for (const name of Object.keys(vehicle)) if (!known.includes(name)) throw new Error(`${guide.platform} knows no ${name}`);
  // Vehicles are boxes of what exists, and nothing but what exists is in them: whoever is in none is no vehicle.
  const exist = guide.vehicles.filter((box) => !misses(box, vehicle));
  if (!exist.length) return { exists: false };
  // Cases hold what exists and may hold what does not: they are asked only of a vehicle that is told whole.
  const cases = guide.positions.flatMap((p) => p.cases).filter((c) => !misses(c.where, vehicle));
  const rules = (guide.compatibility ?? []).filter((r) => !r.where || r.where.some((box) => !misses(box, vehicle)));
  const ask = untold([...exist, ...cases.map((c) => c.where), ...rules.flatMap((r) => r.where ?? [])], vehicle);
  if (ask.length) return { exists: true, ask };
  const places = [];
  for (const { position, cases } of guide.positions) {
    const found = cases.find((c) => !misses(c.where, vehicle)); // no two share a vehicle
    if (found) places.push({ position, ...found });
  }
  return { exists: true, ask: [], places, rules };
}
