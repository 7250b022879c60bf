// Leads finders by the keyboard in several languages, and prints what they come to as one JSON object:
//
//   node tongues.mjs MODULES CHROMIUM FOLDER < ASKED
//
// ASKED holds the folders of the languages below FOLDER, that of the workbooks first; pages, each with lists
// of numbers: the answer to give to one question after another; and pages in signs, with fragments, whose
// words are told. Nothing is judged here; the Go test does that.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, executablePath, folder] = process.argv.slice(2);
const { chromium } = createRequire(import.meta.url)(path.resolve(modules, "playwright-core"));
const asked = JSON.parse(readFileSync(0, "utf8"));
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-ipc-flooding-protection"] });
const address = (page) => pathToFileURL(path.join(folder, page)).href;
const errors = [];

// One tab with scripts and one without, since a tab more costs as much as a page does.
const tab = await (await browser.newContext()).newPage(), still = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
let opened = "";
tab.on("pageerror", (e) => errors.push(`${opened}: ${e.message}`));

async function open(page, fragment = "") {
  if (fragment) await tab.goto("about:blank"); // an address that only differs in what follows # loads nothing
  opened = page;
  await tab.goto(address(page) + fragment);
  await tab.evaluate(install);
}

// Runs in the page: how to look at what the finder shows.
function install() {
  const one = document.querySelector(".one"), text = (n) => n.textContent.replace(/\s+/g, " ").trim();
  const shows = (n) => n?.checkVisibility();
  let turn = 0, wake = () => {};
  addEventListener("hashchange", () => setTimeout(() => { turn++; wake(); }));
  globalThis.end = () => ({
    hash: location.hash,
    mine: [...document.querySelectorAll(".fits .mine")].map((row) => row.id),
    near: one.querySelectorAll(".near button").length,
    parts: shows(document.querySelector("#order")) ? [...document.querySelectorAll(".parts-list tbody tr")].map((row) => `${text(row.querySelector(".count"))} ${text(row.querySelector(".what a, .what .no"))}`) : [],
  });
  globalThis.words = () => {
    const out = [];
    for (const box of [one, document.querySelector("#order")].filter(shows)) {
      const walker = document.createTreeWalker(box, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
      for (let n = walker.nextNode(); n; n = walker.nextNode()) {
        if (n.nodeType === 3) out.push(text(n));
        else out.push(...["aria-label", "placeholder", "label"].map((a) => n.getAttribute(a) ?? ""));
      }
    }
    const today = new Date().toLocaleDateString(document.documentElement.lang, { dateStyle: "long" });
    return out.filter((t) => t && !t.endsWith(today) && t !== today);
  };
  globalThis.dated = () => document.querySelector("#order p").textContent.includes(new Date().toLocaleDateString(document.documentElement.lang, { dateStyle: "long" }));
  globalThis.view = () => {
    const field = shows(one.querySelector(".now .type")), heading = text(one.querySelector("h3"));
    const card = field && [...document.querySelectorAll(".question")].find((q) => heading.endsWith(text(q.querySelector("h4"))));
    const typed = card ? [...card.querySelectorAll(".values > li:not([data-absent]) > b")].map((b) => b.dataset.key ?? text(b)) : [];
    const pressed = one.querySelectorAll(".now > .values > li > button").length - 1;
    return { typed, answers: typed.length + Math.max(pressed, 0), before: [...one.querySelectorAll(".then button")].filter(shows).length };
  };
  globalThis.after = async (turns) => {
    while (turn < turns) await new Promise((done) => { wake = done; });
    return globalThis.view();
  };
  globalThis.tell = (hash) => (location.hash === hash ? globalThis.end() : new Promise((done) => {
    addEventListener("hashchange", () => done(globalThis.end()), { once: true });
    location.hash = hash;
  }));
}

// Answers one question after another from the keyboard.
async function walk(page, picks) {
  await open(page);
  const presses = (...keys) => Promise.all(keys.map((key) => tab.keyboard.press(key)));
  for (let tabs = 0; tabs < 40 && !(await tab.evaluate(() => document.activeElement.id === "pick")); tabs++) await presses("Tab");
  const words = [...await tab.evaluate(() => globalThis.words())];
  let seen = await tab.evaluate(() => globalThis.view());
  for (let k = 0; seen.answers > 0; k++) {
    const i = picks[k % picks.length] % seen.answers, typed = i < seen.typed.length;
    await presses(...Array(seen.before + (typed ? 1 : i + 1 + (seen.typed.length ? 2 - seen.typed.length : 0))).fill("Tab"));
    if (typed) await tab.keyboard.type(seen.typed[i].split(" to ")[0]);
    await presses("Enter");
    seen = await tab.evaluate((turns) => globalThis.after(turns), k + 1);
    words.push(...await tab.evaluate(() => globalThis.words()));
  }
  const out = { ...await tab.evaluate(() => globalThis.end()), words, dated: await tab.evaluate(() => globalThis.dated()) };
  return out;
}

// From one language to the next, by the keyboard, and back to the first.
async function around(page, hash, folders) {
  await open(folders[0] + page, hash);
  const out = [];
  for (const next of [...folders.slice(1), folders[0]]) {
    await tab.focus(`a[data-language][hreflang="${next.slice(0, -1) || "en"}"]`);
    await Promise.all([tab.waitForURL((url) => url.href.split("#")[0] === address(next + page)), tab.keyboard.press("Enter")]);
    await tab.waitForLoadState();
    await tab.evaluate(install);
    out.push({ folder: next, ...await tab.evaluate(() => globalThis.end()) });
  }
  return out;
}

const pages = [];
for (const { page, picks } of asked.pages) {
  const walks = {}, told = {}, carried = [];
  for (const folder of asked.folders) {
    walks[folder] = [];
    for (const p of picks) walks[folder].push(await walk(folder + page, p));
  }
  const hashes = walks[asked.folders[0]].map((w) => w.hash);
  for (const folder of asked.folders) {
    await open(folder + page);
    told[folder] = [];
    for (const hash of hashes) told[folder].push(await tab.evaluate((hash) => globalThis.tell(hash), hash));
  }
  for (const hash of [...hashes.slice(0, 3), ...asked.besides[page] ?? []]) carried.push({ hash, stops: await around(page, hash, asked.folders) });
  pages.push({ page, walks, told, carried });
}
const signs = [];
for (const { page, fragments } of asked.signs) {
  await still.goto(address(page));
  const plain = await still.evaluate(() => {
    const out = new Set(), walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let n = walker.nextNode(); n; n = walker.nextNode()) out.add(n.textContent.replace(/\s+/g, " ").trim());
    return [...out];
  });
  const words = [];
  for (const fragment of fragments) {
    await open(page, fragment);
    words.push(await tab.evaluate(() => globalThis.words()));
  }
  signs.push({ page, plain, words });
}
await browser.close();
process.stdout.write(JSON.stringify({ pages, signs, errors }));
