// Opens complaints in a real browser, with scripts off and on, and prints what came of it as one JSON
// object:
//
//   node complaint.mjs MODULES CHROMIUM FOLDER < PAGES
//
// FOLDER holds the pages (file: addresses), PAGES is a JSON list of {page, told}: told are fragments
// of addresses, each of which tells of one vehicle. With scripts off every place of every complaint is
// tapped. Nothing is judged here; the Go test does that.
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { readFileSync } from "node:fs";

const [modules, executablePath, folder] = process.argv.slice(2);
const require = createRequire(import.meta.url);
const load = (name) => require(path.resolve(modules, name));
const axe = load("axe-core");
const { chromium } = load("playwright-core");
const pages = JSON.parse(readFileSync(0, "utf8"));

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const seen = { off: [], on: [], messages: [], violations: [] };
const address = (page) => pathToFileURL(path.join(folder, page)).href;

const plain = await (await browser.newContext({ javaScriptEnabled: false, viewport: { width: 360, height: 800 } })).newPage();
for (const { page } of pages) {
  const tab = plain;
  await tab.goto(address(page));
  for (const complaint of await tab.locator(".complaint").all()) {
    await complaint.locator("summary").click();
    const name = (await complaint.locator("summary").innerText()).trim();
    for (const at of await complaint.locator(".suspects .at a").all()) {
      const height = (await at.boundingBox()).height;
      await at.click();
      const target = tab.locator(decodeURIComponent(new URL(tab.url()).hash));
      const says = await target.locator(".fits tbody tr > :last-child").allInnerTexts();
      seen.off.push({ page, name, place: (await at.innerText()).trim(), height, says: says.map((s) => s.trim()) });
    }
  }
}

const context = await browser.newContext({ bypassCSP: true, viewport: { width: 360, height: 800 } }); // for the checker's script
const tab = await context.newPage();
tab.on("console", (m) => seen.messages.push(m.text()));
tab.on("pageerror", (e) => seen.messages.push(String(e)));
for (const { page, told } of pages) {
  await tab.goto(address(page));
  await tab.evaluate(() => document.querySelectorAll(".complaint").forEach((d) => (d.open = true)));
  await tab.addScriptTag({ content: axe.source });
  const { violations } = await tab.evaluate(() => axe.run(".matter, .inspect", { preload: false }));
  seen.violations.push(...violations.map((v) => `${page}: ${v.id} ${v.nodes[0].html}`));
  for (const hash of told) {
    await tab.evaluate((h) => (location.hash = h), hash);
    await tab.waitForFunction((h) => location.hash === h && globalThis.guideFinder, "#" + hash);
    await tab.evaluate(() => new Promise((done) => setTimeout(done, 0))); // the event of the address has come
    seen.on.push({ page, hash, ...(await tab.evaluate(() => {
      const shown = (root, q) => [...root.querySelectorAll(q)].filter((e) => !e.closest("[hidden]"));
      const text = (e) => e.textContent.replace(/\s+/g, " ").trim();
      const order = document.getElementById("order");
      return {
        places: Object.fromEntries([...document.querySelectorAll(".complaint")].map((c) => [text(c.firstElementChild), shown(c, ".suspects > li").map((li) => ({ place: text(li.querySelector(".at a")), fit: text(li.querySelector(".mine") || document.createElement("p")), way: !!li.querySelector("button") }))])),
        looks: shown(document, ".inspect li strong").map(text),
        listed: order && !order.hidden ? [...order.querySelectorAll(".looks li strong")].map(text) : null,
        first: !order?.querySelector(".looks") || !order.querySelector("table") || !!(order.querySelector(".looks").compareDocumentPosition(order.querySelector("table")) & 4),
      };
    })) });
  }
}
await browser.close();
console.log(JSON.stringify(seen));
