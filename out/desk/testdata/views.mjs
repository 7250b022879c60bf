// Looks at the views of a desk in a real browser and prints what it saw as one JSON object:
//
//   node views.mjs MODULES CHROMIUM ADDRESS VIEW...
//
// ADDRESS is the one that the program prints, with its token. A line `broken` or `whole` on
// standard output asks for the workbook to be saved so; the answer is a line on standard input.
// Nothing is judged here; the Go test does that.
import { createRequire } from "node:module";
import path from "node:path";
import { createInterface } from "node:readline";

const [modules, executablePath, address, ...views] = process.argv.slice(2);
const require = createRequire(import.meta.url);
const axe = require(path.resolve(modules, "axe-core"));
const { chromium } = require(path.resolve(modules, "playwright-core"));
const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"];
const axeOptions = { runOnly: { type: "tag", values: tags }, rules: { "target-size": { enabled: true } }, preload: false, resultTypes: ["violations"] };

const answers = createInterface({ input: process.stdin })[Symbol.asyncIterator]();
async function save(how) {
  process.stdout.write(how + "\n");
  await answers.next();
}

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const seen = { views: [], requests: [], messages: [], tabs: [], save: {}, keyboard: { views: [] }, many: { streams: 0, tabs: 0, told: 0 } };
// The checker's script is not the page's own.
const context = await browser.newContext({ bypassCSP: true });
const tab = await context.newPage();
watch(tab);
await tab.goto(address);
await tab.waitForURL(/findings$/);
const base = tab.url().replace(/findings$/, "");
for (const view of views) {
  await tab.goto(base + view);
  await tab.evaluate(axe.source);
  for (const look of [{ colorScheme: "light", forcedColors: "none" }, { colorScheme: "dark", forcedColors: "none" }, { colorScheme: "light", forcedColors: "active" }])
    for (const width of [360, 1280]) {
      await tab.emulateMedia(look);
      await tab.setViewportSize({ width, height: 800 });
      const saw = await tab.evaluate(judge, axeOptions);
      seen.views.push({ view, width, forced: look.forcedColors === "active", ...saw });
    }
}
await context.close();

// With the pages' own policy in force.
const strict = await browser.newContext({ viewport: { width: 1280, height: 600 } });
const streams = new Set(); // that are open; one that a page has left ends
strict.on("request", (r) => { if (r.url().endsWith("/events")) streams.add(r); });
strict.on("requestfailed", (r) => streams.delete(r));
strict.on("requestfinished", (r) => streams.delete(r));
const page = await strict.newPage();
watch(page);
await page.goto(address);
await page.waitForURL(/findings$/);
for (let n = 0; n < 16; n++) {
  await page.keyboard.press("Tab");
  seen.tabs.push(await page.evaluate(() => {
    const el = document.activeElement;
    return el.name || el.textContent.trim().slice(0, 40);
  }));
}
await byKeyboard();
const many = [page];
while (many.length < 8) {
  const tab = await strict.newPage();
  watch(tab);
  await tab.goto(base + "findings");
  many.push(tab);
}
await page.bringToFront();
await page.evaluate(() => scrollTo(0, document.querySelectorAll(".finding")[1].offsetTop));
await page.evaluate(() => document.querySelectorAll(".finding")[1].querySelector("summary").focus({ preventScroll: true }));
seen.save.before = await page.evaluate(where);
await save("broken");
await page.waitForSelector("#trouble .banner");
for (const tab of many) {
  await tab.waitForSelector("#trouble .banner", { state: "attached" });
  seen.many.told++;
}
seen.many.tabs = many.length;
seen.many.streams = streams.size;
seen.save.banner = await page.textContent("#trouble");
seen.save.broken = await page.evaluate(where);
await save("whole");
await page.waitForSelector("#trouble .banner", { state: "detached" });
seen.save.whole = await page.evaluate(where);
await browser.close();
process.stdout.write(JSON.stringify(seen) + "\n");
process.exit(0);

// byKeyboard goes through the menu, ticks two of three repairs and has copies made, without a mouse.
async function byKeyboard() {
  for (const view of ["Findings", "Repairs", "Coverage", "Gaps", "Vehicle", "Changes"]) {
    await to((el, view) => el.closest("nav") && el.textContent === view, view);
    await Promise.all([page.waitForNavigation(), page.keyboard.press("Enter")]);
    seen.keyboard.views.push(await page.textContent("h1"));
  }
  await page.goto(base + "repairs");
  for (let n = 0; n < 2; n++) {
    await to((el) => el.type === "checkbox" && !el.checked);
    await page.keyboard.press("Space");
  }
  seen.keyboard.chosen = await page.locator("input:checked").count();
  await to((el) => el.textContent === "Make copies with those chosen");
  await Promise.all([page.waitForNavigation(), page.keyboard.press("Enter")]);
  seen.keyboard.made = await page.textContent("main");
  await page.goto(base + "findings");
}

// to moves the focus on until it is where it should be, and gives up after a page of it.
async function to(meets, arg) {
  for (let n = 0; n < 400; n++) {
    await page.keyboard.press("Tab");
    if (await page.evaluate(([meets, arg]) => new Function("return " + meets)()(document.activeElement, arg), [String(meets), arg]).catch(() => false)) return;
  }
  throw new Error("the keyboard does not lead to " + meets);
}

function watch(tab) {
  tab.on("request", (r) => seen.requests.push(r.url()));
  tab.on("console", (m) => seen.messages.push(`${m.location().url} ${m.text()}`));
  tab.on("pageerror", (e) => seen.messages.push(String(e)));
}

// Runs in the page: where the second finding stands, what has the focus, and of which state it is.
function where() {
  const el = document.querySelectorAll(".finding")[1];
  return { top: Math.round(el.getBoundingClientRect().top), scrolled: Math.round(scrollY), focus: document.activeElement.textContent.slice(0, 60), version: Number(document.body.dataset.version) };
}

// Runs in the page.
async function judge(axeOptions) {
  const root = document.documentElement;
  const result = await globalThis.axe.run(document, axeOptions);
  return {
    title: document.querySelector("h1").textContent,
    sideways: root.scrollWidth - root.clientWidth,
    violations: result.violations.map((v) => `${v.id}: ${v.help}: ${v.nodes.map((n) => n.html.slice(0, 160)).slice(0, 3).join(" | ")}`),
    passes: result.passes.length,
  };
}
