// Narrows lists of platforms in a real browser, by the keyboard alone, and prints what came
// of it as one JSON object:
//
//   node filter.mjs MODULES CHROMIUM FOLDER < CASES
//
// FOLDER holds the pages (file: addresses), CASES is a JSON list of {page, keys}: a key is
// a name that the browser knows, or `type:` and a text; the field has the focus before, which
// Tab must have reached. Then each page is opened with scripts off, and the first jump is
// taken. Nothing is judged here; the Go test does that.
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { readFileSync } from "node:fs";

const [modules, executablePath, folder] = process.argv.slice(2);
const require = createRequire(import.meta.url);
const load = (name) => require(path.resolve(modules, name));
const axe = load("axe-core");
const { chromium } = load("playwright-core");
const cases = JSON.parse(readFileSync(0, "utf8"));

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const seen = { cases: [], off: [], violations: [] };
const context = await browser.newContext({ bypassCSP: true }); // for the checker's script
const tab = await context.newPage();
let messages = [];
tab.on("console", (m) => messages.push(m.text()));
tab.on("pageerror", (e) => messages.push(String(e)));
for (const c of cases) {
  messages = [];
  await tab.goto(pathToFileURL(path.join(folder, c.page)).href);
  const reached = () => tab.evaluate(() => document.activeElement.id === "filter");
  for (let n = 0; n < 60 && !(await reached()); n++) await tab.keyboard.press("Tab");
  if (!(await reached())) throw new Error(`${c.page}: Tab does not reach the field`);
  for (const key of c.keys) {
    if (key.startsWith("type:")) await tab.keyboard.insertText(key.slice(5));
    else if (key === "follow") await Promise.all([tab.waitForNavigation(), tab.keyboard.press("Enter")]);
    else await tab.keyboard.press(key);
  }
  const url = path.relative(folder, decodeURIComponent(new URL(tab.url()).pathname));
  if (url !== c.page) {
    seen.cases.push({ url, messages });
  } else {
    seen.cases.push({ url, messages, ...(await tab.evaluate(() => {
      const shown = (q) => [...document.querySelectorAll(q)].filter((e) => e.getClientRects().length).map((e) => e.textContent.replace(/\s+/g, " ").trim());
      return {
        status: document.querySelector(".filter [role=status]").textContent,
        focus: document.activeElement.id || document.activeElement.textContent.trim(),
        listed: shown("#platforms ~ .names li:not([id]), #platforms ~ .group .names li, .platforms > li"),
        headings: shown("#platforms ~ .group :is(h3, h4):not(.platforms h4)"),
        jumps: shown("#platforms ~ nav a, #platforms ~ .group nav a").length,
      };
    })) });
    if (seen.cases.at(-1).listed.length > 100) continue; // the checker takes its time over what is not narrowed
    await tab.evaluate(axe.source);
    const result = await tab.evaluate(() => globalThis.axe.run(document, { runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"] }, preload: false }));
    seen.violations.push(...result.violations.map((v) => `${c.page} ${v.id}: ${v.help}`));
  }
}

const plain = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
for (const page of [...new Set(cases.map((c) => c.page))]) {
  const tab = plain;
  await tab.goto(pathToFileURL(path.join(folder, page)).href);
  const field = await tab.locator(".filter").isVisible();
  const jump = tab.locator("#platforms ~ nav.letters a").last();
  await jump.focus();
  await jump.press("Enter");
  const heading = tab.locator(":target");
  seen.off.push({ page, field, jump: await jump.textContent(), heading: await heading.textContent(), inView: await heading.evaluate((e) => { const r = e.getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight; }) });
}
await browser.close();
process.stdout.write(JSON.stringify(seen));
