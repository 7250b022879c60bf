// Does what people come for, on the demo and on a phone, and prints what it took as a JSON list: taps (a
// choice in a list is two), and screens, which is the one that is seen from the start and what is scrolled
// through; what is scrolled by a link is not.
//
//   node tasks.mjs MODULES CHROMIUM FOLDER NAME... < WIDTH AND HEIGHT
//
// FOLDER holds the demo (file: addresses), each NAME is one of tasks below. Nothing is judged here; the Go
// test does that.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, executablePath, folder, ...wanted] = process.argv.slice(2);
const { chromium } = createRequire(import.meta.url)(path.resolve(modules, "playwright-core"));
const viewport = JSON.parse(readFileSync(0, "utf8"));
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });

// Somebody with a page: what they scroll, tap and come to see.
class Hand {
  taps = 0;
  scrolled = 0;
  saw = "";
  constructor(tab) { this.tab = tab; }
  // Scrolls until what is wanted is seen, or as much of it as tells what it is.
  async see(what) {
    const at = this.tab.locator(what).first();
    this.scrolled += await at.evaluate((e) => {
      const { top, bottom } = e.getBoundingClientRect(), before = scrollY, low = Math.min(bottom, top + 200);
      if (low > innerHeight) scrollBy(0, low - innerHeight);
      else if (top < 0) scrollBy(0, top - 8);
      return Math.abs(scrollY - before);
    });
    this.saw = (await at.innerText()).replace(/\s+/g, " ").trim();
    return at;
  }
  async tap(what) {
    await (await this.see(what)).click();
    this.taps++;
  }
  async choose(list, label) {
    await (await this.see(list)).selectOption({ label });
    this.taps += 2;
  }
  // Gives the answer that begins with one of some words, or the first, until no question is left.
  async answer(...words) {
    while (/^Question/.test(await this.tab.locator(".one > h3").textContent())) {
      const labels = await this.tab.locator(".now .values > li > button").allInnerTexts();
      const n = Math.max(0, labels.findIndex((l) => words.some((w) => l.trim().startsWith(w))));
      await this.tap(`.now .values > li:nth-child(${n + 1}) > button`);
    }
  }
}

const tasks = {
  damper: ["platforms/h7.html", async (h) => {
    await h.choose("#pick", "1 Front damper");
    await h.answer("2011", "7.1 t");
    await h.see(".one .now > a, .one .now .items a");
  }],
  restrictor: ["platforms/h7.html", async (h) => {
    await h.choose("#pick", "10 Front restrictor left");
    await h.answer("Yes", "2015", "1/2 in", "No tee");
    await h.see(".one .now > .say");
  }],
  number: ["index.html", async (h) => {
    await h.tap("#search-field");
    await h.tab.fill("#search-field", "320 118 04");
    await h.tap(".found a");
    await h.see("h1");
  }],
  check: ["platforms/h7.html", async (h) => {
    await h.tap('.jump a[href="#matter"]');
    await h.tap(".complaint summary");
    await h.see(".complaint[open] .check > li");
  }],
  part: ["parts/hpr-1101.html", async (h) => { await h.see(".uses tbody td"); }],
  print: ["platforms/h7.html", async (h) => {
    await h.tab.evaluate(() => { print = () => { document.title = "on paper"; }; });
    await h.answer("2011", "7.1 t", "No tag", "Left-hand");
    await h.tap('.now a[href="#order"]');
    await h.tap("#order > button");
    h.saw = await h.tab.title();
    h.list = await h.tab.locator("#order").evaluate((e) => e.getBoundingClientRect().height / innerHeight);
  }],
};

const did = [];
for (const name of wanted) {
  const tab = await browser.newPage({ viewport });
  const [page, way] = tasks[name], hand = new Hand(tab);
  await tab.goto(pathToFileURL(path.join(folder, page)).href, { waitUntil: "networkidle" });
  await way(hand);
  did.push({ name, taps: hand.taps, screens: 1 + hand.scrolled / viewport.height, list: hand.list ?? 0, saw: hand.saw });
  await tab.close();
}
await browser.close();
process.stdout.write(JSON.stringify(did));
