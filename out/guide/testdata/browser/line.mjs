// Reads texts with line.js, and prints as JSON what each is read as, null where it is refused:
//
//   node line.mjs LINE.JS [WORDS.JS] < TEXTS
//
// TEXTS is a list of pairs of a kind and a text. There are no values, so that the answer
// names what was read as outside of them. WORDS.JS is what scripts say in a language, English without it.
import { readFileSync } from "node:fs";

if (process.argv[3]) (0, eval)(readFileSync(process.argv[3], "utf8"));
const outside = "%s is not within %s. Look again; if it is so, it is no vehicle of this guide: stop and ask.";
const [, behind] = (globalThis.guideWords?.words[outside][0] ?? outside).split("%s");
(0, eval)(readFileSync(process.argv[2], "utf8"));
const out = JSON.parse(readFileSync(0, "utf8")).map(([line, words]) => {
  const { error, outside } = globalThis.guideLine({ asks: [{ line, values: [] }] }).settle(0, words);
  return outside ? error.slice(0, error.indexOf(behind)) : null;
});
process.stdout.write(JSON.stringify(out));
