// Drives the finders of pages in a real browser, and prints what they lead to as one
// JSON object:
//
//   node finder.mjs MODULES CHROMIUM FOLDER PAGE...
//
// Once with scripts, by the keyboard alone: every answer that is offered is given, to
// every question. Once with scripts off: every answer of every place is opened. Nothing is
// judged here; the Go test does that.
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, executablePath, folder, ...pages] = process.argv.slice(2);
const { chromium } = createRequire(import.meta.url)(path.resolve(modules, "playwright-core"));
// No person answers two hundred questions in ten seconds, which a browser takes for a fault.
const launch = () => chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-ipc-flooding-protection"] });
const address = (page) => pathToFileURL(path.join(folder, page)).href;

async function keyboard(browser, page) {
  const tab = await (await browser.newContext()).newPage();
  const errors = [];
  tab.on("pageerror", (e) => errors.push(e.message));
  await tab.goto(address(page));
  await tab.evaluate(install);
  const presses = (...keys) => Promise.all(keys.map((key) => tab.keyboard.press(key)));
  let tabs = 0;
  for (; tabs < 30 && !(await tab.evaluate(() => document.activeElement.id === "pick")); tabs++) await presses("Tab");
  let turn = 0;
  // Keys and scripts reach a page by different ways, in no order: what follows a key is known
  // by the number of its change of address, not by listening once the key is on its way.
  const changed = (way) => tab.evaluate(([turns, way]) => globalThis.after(turns, way), [++turn, way]);
  const visit = async (seen) => {
    if (!seen.ask) return { end: seen.end, home: seen.home };
    const node = { ask: seen.ask, home: seen.home, ways: {} };
    for (let i = 0; i < seen.answers.length; i++) {
      // From the question's heading, or at first from the choice of a place before it.
      await presses(...Array(i + 1).fill("Tab"), "Enter");
      node.ways[seen.answers[i]] = await visit(await changed());
      const again = await changed("back");
      if (again.ask !== seen.ask) throw new Error(`back from ${seen.answers[i]} leads to ${again.ask}, not ${seen.ask}`);
    }
    return node;
  };
  const tree = await visit(await tab.evaluate(() => globalThis.view()));
  await tab.context().close();
  return { page, tabs, tree, errors };
}

// Runs in the page: how to look at what the finder shows.
function install() {
  const text = (node) => node.textContent.replace(/\s+/g, " ").trim();
  const part = (td) => text(td.querySelector("a, .no"));
  globalThis.view = () => {
    const one = document.querySelector(".one");
    const out = { home: document.activeElement === one.querySelector("h3"), status: text(one.querySelector("[role=status]")) };
    const answers = [...one.querySelectorAll(".now li > button")].map(text).filter((t) => t !== "I cannot tell");
    if (answers.length) return { ...out, ask: text(one.querySelector("h3")).replace(/^Question \d+: /, ""), answers };
    const end = {};
    for (const li of document.querySelectorAll(".steps > li")) {
      const name = text(document.getElementById(li.dataset.at).querySelector("h3 span"));
      end[name] = { brief: text(li.querySelector(".state")), lines: document.querySelectorAll(`#${li.dataset.at} .mine`).length };
    }
    for (const group of document.querySelectorAll(".parts-list tbody")) {
      const choices = [];
      for (const row of group.rows) {
        const [choice, quantity, what] = row.querySelectorAll("td");
        if (text(choice) !== "and") choices.push([]);
        choices.at(-1).push([+text(quantity), part(what)]);
      }
      end[text(group.querySelector("th")).replace(/^\d+ /, "").replace(text(group.querySelector(".pos") || document.createElement("i")), "").trim()].choices = choices;
    }
    return { ...out, end };
  };
  let turn = 0, wake = () => {};
  addEventListener("hashchange", () => setTimeout(() => { turn++; wake(); }));
  // What is shown after so many changes of the address, the last of them a way back or a key.
  globalThis.after = async (turns, way) => {
    if (way === "back") history.back();
    while (turn < turns) await new Promise((done) => { wake = done; });
    return globalThis.view();
  };
}

// With scripts off a place is a tree of answers to open, and each way ends at a line, to
// which its link leads.
async function plain(browser, page) {
  const tab = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
  await tab.goto(address(page));
  const press = async (handle) => { await handle.focus(); await tab.keyboard.press("Enter"); };
  const text = async (handle) => (await handle.textContent()).replace(/\s+/g, " ").trim();
  const at = async (box) => {
    const ways = await box.$$(":scope > ul > li");
    if (!ways.length) return { end: await line(await box.$(":scope > p")) };
    const node = { ask: await text(await box.$(":scope > p > a")), ways: {} };
    for (const way of ways) {
      const inner = await way.$(":scope > details");
      if (!inner) {
        node.ways[(await text(way)).replace(/: .*/, "")] = { end: await line(way) };
        continue;
      }
      const summary = await inner.$(":scope > summary");
      await press(summary);
      node.ways[await text(summary)] = await at(inner);
      await press(summary);
    }
    return node;
  };
  const line = async (way) => {
    if (!(await way.isVisible())) throw new Error("an answer does not show when it is opened");
    const out = { brief: (await text(way)).replace(/^[^:]*: /, "") };
    const link = await way.$("a[href^='#r']");
    if (!link) return out;
    await press(link);
    const row = await tab.$("tr:target td:last-child");
    out.choices = await row.evaluate((td) => {
      const items = (c) => (c.querySelectorAll(":scope > .items > li").length ? [...c.querySelectorAll(":scope > .items > li")] : [c]);
      const choices = td.querySelectorAll(":scope > div");
      return [...(choices.length ? choices : [td])].map((c) => items(c).flatMap((item) => {
        const count = item.querySelector(":scope > b"), part = item.querySelector(":scope > a, :scope > .no");
        return count ? [[parseInt(count.textContent), part.textContent]] : [];
      })).filter((c) => c.length);
    });
    return out;
  };
  const places = {};
  for (const li of await tab.$$(".steps > li")) {
    const details = await li.$(":scope > details");
    const summary = await details.$(":scope > summary");
    await press(summary);
    places[(await text(summary)).replace(/^\d+ /, "")] = await at(details);
    await press(summary);
  }
  await tab.context().close();
  return { page, places };
}

// Each page has a browser of its own, since a keyboard belongs to one page.
const driven = await Promise.all(pages.map(async (page) => {
  const browser = await launch();
  const out = [await keyboard(browser, page), await plain(browser, page)];
  await browser.close();
  return out;
}));
process.stdout.write(JSON.stringify({ keyboard: driven.map(([k]) => k), plain: driven.map(([, p]) => p) }));
