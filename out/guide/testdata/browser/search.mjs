// Uses the search field of pages in a real browser, by the keyboard alone, and prints
// what came of it as one JSON object:
//
//   node search.mjs MODULES CHROMIUM FOLDER < CASES
//
// FOLDER holds the pages (file: addresses), CASES is a JSON list of {page, keys}: a key
// is a name that the browser knows (Tab, Enter …) or `type:` and a text. Nothing is judged
// here; the Go test does that.
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

// The pages' own policy is in force.
const asked = await (await browser.newContext()).newPage();
let requests = [], messages = [];
asked.on("request", (r) => requests.push(r.url()));
asked.on("console", (m) => messages.push(m.text()));
asked.on("pageerror", (e) => messages.push(String(e)));
asked.on("dialog", (d) => (messages.push(`dialog: ${d.message()}`), d.dismiss()));
for (const c of cases) {
  const tab = asked;
  [requests, messages] = [[], []];
  await tab.goto(pathToFileURL(path.join(folder, c.page)).href);
  const before = requests.length;
  const begin = tab.url();
  for (const key of c.keys) await press(tab, key, begin);
  seen.cases.push({
    url: path.relative(folder, new URL(tab.url()).pathname) + new URL(tab.url()).hash,
    cached: requests.slice(before).filter((u) => /\/search-index\.js(?!\?\d+$)|\/search\/\d+\.js(?!\?[0-9a-f]{16}$)/.test(u)),
    loaded: requests.slice(before).filter((u) => /\/search(-index\.js|\/)/.test(u)).length,
    others: requests.filter((u) => !u.startsWith("file:")),
    messages,
    ...(await tab.evaluate(() => ({
      focus: document.activeElement.id || document.activeElement.textContent.trim(),
      status: document.querySelector("[role=status]").textContent,
      open: document.querySelector("[data-search]").classList.contains("open"),
      results: [...document.querySelectorAll("[data-search] ol a")].map((a) => a.textContent.trim()),
    }))),
  });
}

async function press(tab, key, begin) {
  if (key === "field") {
    for (let n = 0; n < 12 && !(await tab.evaluate(() => document.activeElement.id === "search-field")); n++)
      await tab.keyboard.press("Tab");
  } else if (key.startsWith("type:")) {
    // At once, as from a quick hand or the clipboard: what is loaded does not depend on how
    // quick this machine is.
    await tab.keyboard.insertText(key.slice(5));
    await answered(tab);
  } else if (key === "Enter") {
    await Promise.all([tab.waitForURL((url) => url.href !== begin), tab.keyboard.press(key)]);
  } else {
    await tab.keyboard.press(key);
  }
}

// Waits until a query has been answered: something is always said of it.
function answered(tab) {
  return tab.waitForFunction(() => document.querySelector("[role=status]").textContent !== "");
}

// Scripts off: the field is not there, and the A to Z is one step away.
const still = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
for (const page of new Set(cases.map((c) => c.page))) {
  const tab = still;
  await tab.goto(pathToFileURL(path.join(folder, page)).href);
  const field = await tab.locator("#search-field").isVisible();
  await tab.locator("header a", { hasText: "A to Z" }).click();
  seen.off.push({ page, field, reached: path.relative(folder, new URL(tab.url()).pathname), heading: await tab.locator("h1").textContent() });
}

// The open list, looked at by the checker.
const checked = await browser.newContext({ bypassCSP: true });
const tab = await checked.newPage();
await tab.goto(pathToFileURL(path.join(folder, cases[0].page)).href);
await tab.locator("#search-field").focus();
await tab.keyboard.type("damper");
await answered(tab);
await tab.evaluate(axe.source);
const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"];
for (const colorScheme of ["light", "dark"])
  for (const width of [360, 1280]) {
    await tab.emulateMedia({ colorScheme });
    await tab.setViewportSize({ width, height: 800 });
    const result = await tab.evaluate((values) => globalThis.axe.run(document, { runOnly: { type: "tag", values }, preload: false }), tags);
    const sideways = await tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    seen.violations.push(...result.violations.map((v) => `${colorScheme} ${width}: ${v.id}: ${v.nodes.map((n) => n.html.slice(0, 120)).join(" | ")}`));
    if (sideways > 0) seen.violations.push(`${colorScheme} ${width}: scrolls sideways by ${sideways}`);
  }
await browser.close();
process.stdout.write(JSON.stringify(seen));
