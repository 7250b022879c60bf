// Looks at a folder of pages in a real browser and with an HTML checker, and prints
// what it saw as one JSON object:
//
//   node check.mjs MODULES CHROMIUM FOLDER PAGE...
//
// MODULES is the folder of node modules, FOLDER holds the pages (file: addresses, as
// people get them on a stick); a page may have a fragment (page.html#?…), which answers
// what the page asks. Nothing is judged here; the Go test does that.
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, executablePath, folder, ...pages] = process.argv.slice(2);
const require = createRequire(import.meta.url);
const load = (name) => require(path.resolve(modules, name));
const axe = load("axe-core");
const { HtmlValidate } = load("html-validate");
const { chromium } = load("playwright-core");

const file = (page) => path.join(folder, page.split("#")[0]);
const address = (page) => pathToFileURL(file(page)).href + page.slice(page.split("#")[0].length);

const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"];
const axeOptions = { runOnly: { type: "tag", values: tags }, rules: { "target-size": { enabled: true } }, preload: false, resultTypes: ["violations"] };

// In the dark only colours are others, which a test of the style holds: what is not about colours is checked once.
const darkOptions = { ...axeOptions, runOnly: { type: "rule", values: ["color-contrast", "link-in-text-block"] }, rules: {} };

const seen = { version: "", markup: [], loads: [], views: [], print: [] };

const validator = new HtmlValidate({ extends: ["html-validate:recommended"], root: true });
for (const page of pages.filter((p) => !p.includes("#"))) {
  const report = await validator.validateFile(file(page));
  for (const result of report.results)
    for (const m of result.messages)
      seen.markup.push(`${page}:${m.line}:${m.column} ${m.ruleId}: ${m.message}`);
}

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
seen.version = browser.version();
// The pages forbid scripts that are not theirs, the checker's too; the policy is tried
// further down.
const context = await browser.newContext({ bypassCSP: true });
const tab = await context.newPage();
let requests = [], messages = [];
tab.on("request", (r) => requests.push(r.url()));
tab.on("console", (m) => messages.push(m.text()));
for (const page of pages) {
  await tab.emulateMedia({ media: "screen", colorScheme: "light" });
  if (page.includes("#")) await tab.goto("about:blank"); // an address that only differs in what follows # loads nothing
  [requests, messages] = [[], []];
  await tab.goto(address(page));
  await tab.evaluate(axe.source);
  for (const colorScheme of ["light", "dark"])
    for (const width of [320, 360, 1280]) {
      await tab.emulateMedia({ colorScheme });
      await tab.setViewportSize({ width, height: 800 });
      seen.views.push({ page, colorScheme, width, ...(await tab.evaluate(look, colorScheme === "dark" ? darkOptions : axeOptions)) });
    }
  seen.loads.push({ page, requests, messages });
  seen.print.push(await print(page));
}
seen.policy = await policy();
await browser.close();
process.stdout.write(JSON.stringify(seen));

// Runs in the page.
async function look(axeOptions) {
  const root = document.documentElement;
  document.querySelectorAll(".known, .exist").forEach((d) => { d.open = true; });
  // 320 px is for reflow alone.
  const result = innerWidth > 320 ? await globalThis.axe.run(document, axeOptions) : { violations: [], passes: [] };
  return {
    sideways: root.scrollWidth - root.clientWidth,
    small: [...document.querySelectorAll("nav a, h3 a, h4 a, header a, header input, table a, .items a, .contents a, .numbers a, .names a, .spans a")]
      .filter((a) => a.getClientRects().length && a.getBoundingClientRect().height < 24)
      .map((a) => a.textContent),
    low: [...document.querySelectorAll("button, summary, select, .one input, .filter input, .jump a, .plan a")]
      .filter((a) => a.getClientRects().length && a.getBoundingClientRect().height < 44)
      .map((a) => a.textContent),
    // Words of a level that run into what it is about.
    spilt: [...document.querySelectorAll(".caution .level")].filter((e) => e.clientWidth && e.scrollWidth > e.clientWidth + 1).map((e) => e.textContent),
    nameless: [...document.querySelectorAll(".place")].filter((e) => e.getClientRects().length && !e.querySelector("h3").getClientRects().length).map((e) => e.id),
    paper: getComputedStyle(document.body).backgroundColor,
    violations: result.violations.map((v) => `${v.id}: ${v.help}: ${v.nodes.map((n) => n.html.slice(0, 120)).slice(0, 3).join(" | ")}`),
    passes: result.passes.length,
  };
}

// With the pages' own policy in force: a script that got in would not run, and the
// style sheet still counts.
async function policy() {
  const tab = await (await browser.newContext()).newPage();
  await tab.goto(address(pages[0]));
  const ran = await tab.evaluate(() => {
    const s = document.createElement("script");
    s.textContent = "globalThis.ran = true";
    document.body.append(s);
    return globalThis.ran === true;
  });
  const styled = await tab.evaluate(() => getComputedStyle(document.querySelector(".skip")).position === "absolute");
  return { ran, styled };
}

// On paper: what is hidden, and whether the cautions and the table heads are there. An A4
// sheet, the narrower one, leaves 695 px between its margins.
async function print(page) {
  await tab.emulateMedia({ media: "print", colorScheme: "dark" });
  await tab.setViewportSize({ width: 695, height: 900 });
  return tab.evaluate((page) => {
    document.querySelectorAll("details").forEach((d) => { d.open = false; }); // nothing is opened for paper
    if (page.includes("#?")) document.querySelector("main").classList.add("only-list"); // as the button does that prints the list
    const shown = (q) => [...document.querySelectorAll(q)].filter((e) => e.getClientRects().length).length;
    const heads = [...document.querySelectorAll("thead")];
    return {
      page,
      navigation: shown("nav, .skip, .search, .filter, button, select, .one, .list"),
      lists: shown(".order"), guides: shown(".find, .fits"),
      cautions: shown("#safety, .usual .caution"),
      repeated: heads.every((h) => getComputedStyle(h).display === "table-header-group"),
      paper: getComputedStyle(document.body).backgroundColor,
      sideways: document.documentElement.scrollWidth - document.documentElement.clientWidth,
      lost: page.includes("#?") ? [] : lost(),
    };

    // Texts that paper does not have, but for what is pressed, opened or chosen, and what a map says once more for those who do not see it.
    function lost() {
      const out = [], walk = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
      for (let n = walk.nextNode(); n; n = walk.nextNode()) {
        if (!n.data.trim() || n.parentElement.closest("nav, script, template, :is(.fold, .is, .more, .lead) > details > summary, .fold > summary, button, select, .one, .list, .ways, .search, .filter, .exist, .map details, caption")) continue;
        const of = document.createRange();
        of.selectNodeContents(n);
        if (![...of.getClientRects()].some((r) => r.width > 1 && r.height > 1)) out.push(n.data.trim());
      }
      return out;
    }
  }, page);
}
