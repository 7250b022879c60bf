// Prints pages as PDF in a real browser, and prints what came of it as one JSON list:
//
//   node paper.mjs MODULES CHROMIUM FOLDER < PAGES
//
// PAGES is a JSON list of paths below FOLDER; a page whose fragment answers what it asks is printed as the list of parts.
// Each is printed on both sizes of paper: on how many sheets, and which headings begin so low on a sheet that not even
// one line stands below them.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, executablePath, folder] = process.argv.slice(2);
const { chromium } = createRequire(import.meta.url)(path.resolve(modules, "playwright-core"));
const pages = JSON.parse(readFileSync(0, "utf8"));

// The margin below the text (12 mm) and two lines of text, in points.
const foot = 34 + 22;

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const tab = await browser.newPage();
const out = [];
for (const page of pages) {
  const [file, fragment] = page.split("#");
  await tab.goto("about:blank");
  await tab.goto(pathToFileURL(path.join(folder, file)).href + (fragment ? "#" + fragment : ""));
  if (fragment) await tab.evaluate(() => document.querySelector("main").classList.add("only-list")); // as the button does that prints the list
  for (const format of ["A4", "Letter"]) {
    const pdf = (await tab.pdf({ format, outline: true, tagged: true })).toString("latin1");
    const headings = [...pdf.matchAll(/\/Title (.*)\n\/Dest \[\d+ 0 R \/XYZ [\d.]+ (-?[\d.]+)/g)];
    out.push({ page, format, sheets: pdf.match(/\/Type\s*\/Page\b/g).length, headings: headings.length,
      low: headings.filter(([, , top]) => +top < foot).map(([, title]) => title) });
  }
}
await browser.close();
process.stdout.write(JSON.stringify(out));
