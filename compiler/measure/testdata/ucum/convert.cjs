// Converts between units by their UCUM codes:
//
//   node convert.cjs MODULES < PAIRS
//
// MODULES is the folder of node modules, PAIRS a JSON array of [from, to]. Prints a JSON
// array with how many of the second unit one of the first is.
const path = require("node:path");
const { UcumLhcUtils } = require(path.resolve(process.argv[2], "@lhncbc/ucum-lhc"));
const ucum = UcumLhcUtils.getInstance();
const pairs = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
console.log(JSON.stringify(pairs.map(([from, to]) => {
  const answer = ucum.convertUnitTo(from, 1, to);
  if (answer.status !== "succeeded") throw new Error(`${from} to ${to}: ${answer.msg}`);
  return answer.toVal;
})));
