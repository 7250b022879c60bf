// Reads texts with line.js, and prints as JSON what each is read as, null where it is refused:
//
//   node line.mjs LINE.JS < TEXTS
//
// TEXTS is a list of pairs of a kind and a text. There are no values, so that the answer
// names what was read as outside of them.
import { readFileSync } from "node:fs";

(0, eval)(readFileSync(process.argv[2], "utf8"));
const out = JSON.parse(readFileSync(0, "utf8")).map(([line, words]) => {
  const { error, outside } = globalThis.guideLine({ asks: [{ line, values: [] }] }).settle(0, words);
  return outside ? error.slice(0, error.indexOf(" is not within")) : null;
});
process.stdout.write(JSON.stringify(out));
