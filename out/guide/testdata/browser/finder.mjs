// Drives the finders of pages in a real browser, and prints what they lead to as one
// JSON object:
//
//   node finder.mjs MODULES CHROMIUM FOLDER PAGE... < TOLD
//
// TOLD is an object with lists of fragments, as JSON. What it holds for a page is told by the
// page's address; of a vehicle that does not exist the first that comes near is then taken. Where
// it holds objects with a fragment and words, these are typed into the field that is then shown.
// Where it is empty, every answer that is offered is given to every question, with scripts
// and by the keyboard alone, and with scripts off every answer of every place is opened.
// Nothing is judged here; the Go test does that.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, executablePath, folder, ...pages] = process.argv.slice(2);
const { chromium } = createRequire(import.meta.url)(path.resolve(modules, "playwright-core"));
// No person answers two hundred questions in ten seconds, which a browser takes for a fault.
const launch = () => chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-ipc-flooding-protection"] });
const told = JSON.parse(readFileSync(0, "utf8"));
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
  const changed = (back) => tab.evaluate(([turns, back]) => globalThis.after(turns, back), [++turn, back]);
  // Gives every answer to a question that is shown, and all that follow. It ends at the last
  // of these ends, and away is how many steps back the question is.
  const visit = async (seen) => {
    if (!seen.ask) return { away: 0, node: { end: seen.end, near: seen.near, home: seen.home } };
    const node = { ask: seen.ask, home: seen.home, ways: {} };
    let away = 0;
    for (const [i, answer] of seen.answers.entries()) {
      if (away > 0) {
        const again = await changed(away);
        if (again.ask !== seen.ask) throw new Error(`back before ${answer} leads to ${again.ask}, not ${seen.ask}`);
      }
      // From the question's heading, or at first from the choice of a place before it. The field
      // for a number or a date takes one tab, and its button another.
      const typed = i < seen.typed, tabs = typed ? 1 : i + 1 - seen.typed + (seen.typed ? 2 : 0);
      await presses(...Array(seen.before + tabs).fill("Tab"));
      if (typed) await tab.keyboard.type(answer.split(" to ")[0]);
      await presses("Enter");
      const next = await visit(await changed(0));
      node.ways[answer] = next.node;
      away = next.away + 1;
    }
    return { away, node };
  };
  const { node } = await visit(await tab.evaluate(() => globalThis.view()));
  await tab.context().close();
  return { page, tabs, tree: node, errors };
}

// Types into the field of the question that an address leads to, and tells what becomes of it.
async function typing(browser, page, all) {
  const tab = await browser.newPage();
  const errors = [], seen = [];
  tab.on("pageerror", (e) => errors.push(e.message));
  for (const { fragment, words } of all) {
    await tab.goto("about:blank");
    await tab.goto(address(page) + fragment);
    await tab.evaluate(install);
    await tab.focus("#type");
    await tab.keyboard.type(words);
    await tab.keyboard.press("Enter");
    seen.push(await tab.evaluate(() => globalThis.typed()));
  }
  await tab.context().close();
  return { page, seen, errors };
}

async function byAddress(browser, page) {
  const tab = await (await browser.newContext()).newPage();
  const errors = [];
  tab.on("pageerror", (e) => errors.push(e.message));
  await tab.goto(address(page));
  await tab.evaluate(install);
  const seen = await tab.evaluate((all) => globalThis.tell(all), told[page]);
  await tab.context().close();
  return { page, seen, errors };
}

// Runs in the page: how to look at what the finder shows.
function install() {
  const text = (node) => node.textContent.replace(/\s+/g, " ").trim();
  const part = (td) => text(td.querySelector("a, .no"));
  const one = document.querySelector(".one");
  const buttons = () => [...one.querySelectorAll(".now > .values > li > button")].filter((b) => text(b) !== "I cannot tell");
  const shows = (all) => all.filter((n) => n.checkVisibility());
  let turn = 0, wake = () => {};
  globalThis.view = () => {
    const out = { home: document.activeElement === one.querySelector("h3"), status: text(one.querySelector("[role=status]")) };
    // Of each stretch the first is typed.
    const field = one.querySelector(".type"), ask = text(one.querySelector("h3")).replace(/^Question \d+: /, "");
    const card = field && [...document.querySelectorAll(".question")].find((q) => text(q.querySelector("h4")) === ask);
    const typed = card ? [...card.querySelectorAll(".values > li:not([data-absent]) > b")].map(text) : [];
    const answers = [...typed, ...buttons().map(text)];
    const near = [...one.querySelectorAll(".near button")].map(text);
    if (near.length) {
      const named = [...document.querySelectorAll(".state, .mine, .not")].filter((n) => !n.matches(".state") || text(n));
      return { ...out, head: text(one.querySelector("h3")), why: text(one.querySelector(".now .say")), near, named: named.length + shows([document.querySelector("#order")]).length };
    }
    if (answers.length) return { ...out, before: shows([...one.querySelectorAll(".then button")]).length, ask, typed: typed.length, answers };
    const end = {};
    for (const li of document.querySelectorAll(".steps > li")) {
      const name = text(document.getElementById(li.dataset.at).querySelector("h3 span"));
      end[name] = { brief: text(li.querySelector(".state")), lines: document.querySelectorAll(`#${li.dataset.at} .mine`).length };
    }
    for (const group of document.querySelectorAll(".parts-list tbody")) {
      const choices = [];
      for (const row of group.rows) {
        const [choice, quantity, what] = [".choice", ".count", ".what"].map((q) => row.querySelector(q));
        if (!choice || text(choice) !== "and") choices.push([]);
        choices.at(-1).push([+text(quantity), part(what)]);
      }
      end[text(group.querySelector("th")).replace(/^\d+ /, "").replace(text(group.querySelector(".pos") || document.createElement("i")), "").trim()].choices = choices;
    }
    return { ...out, end };
  };
  // A field tells at once what is wrong; what is right changes the address, and that takes a turn.
  globalThis.typed = async () => {
    const field = document.querySelector("#type"), error = field && text(document.getElementById("typeno"));
    if (!error && turn === 0) await new Promise((done) => { wake = done; });
    const labelled = !!field && field.labels.length === 1 && field.getAttribute("aria-describedby").split(" ").every((id) => document.getElementById(id));
    return { error: error || "", labelled, mode: field?.inputMode ?? "", invalid: !!error && field.getAttribute("aria-invalid") === "true" && document.activeElement === field && document.getElementById("typeno").getAttribute("role") === "status",
      hash: decodeURIComponent(location.hash.replaceAll("+", " ")), sofar: [...one.querySelectorAll(".sofar > li")].map((li) => text(li).replace(/ Change$/, "")) };
  };
  const changed = (change) => new Promise((done) => { addEventListener("hashchange", () => done(globalThis.view()), { once: true }); change(); });
  globalThis.tell = async (all) => {
    const out = [];
    for (const fragment of all) {
      const seen = await changed(() => { location.hash = fragment; });
      out.push({ ...seen, so: text(one.querySelector(".then")), lost: shows([one.querySelector(".lost")]).map(text).join() });
      out.at(-1).sofar = [...one.querySelectorAll(".sofar > li")].map((li) => text(li).replace(/ Change$/, ""));
      if (seen.end) out.at(-1).rules = [...document.querySelectorAll("#order .rules tbody tr")].map((r) => [text(r.cells[3]), text(r.cells[2])]);
      if (seen.near) out.at(-1).then = await changed(() => one.querySelector(".near button").click());
    }
    return out;
  };
  addEventListener("hashchange", () => setTimeout(() => { turn++; wake(); }));
  // What is shown after so many changes of the address, the last of them a key or some steps
  // back.
  globalThis.after = async (turns, back) => {
    if (back) history.go(-back);
    while (turn < turns) await new Promise((done) => { wake = done; });
    return globalThis.view();
  };
}

// With scripts off a place is a tree of answers to open, and each way ends at a line, to
// which its link leads. One is opened by the keyboard, and its link followed.
async function plain(browser, page) {
  const tab = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
  await tab.goto(address(page));
  const places = await tab.evaluate(open);
  const press = async (handle) => { await handle.focus(); await tab.keyboard.press("Enter"); };
  for (let box = await tab.$(".steps > li > details"); box; box = await box.$(":scope > ul > li > details")) await press(await box.$(":scope > summary"));
  const link = await tab.$(".steps a[href^='#r']:visible");
  await press(link);
  const target = await tab.$(":target");
  const keys = target && "#" + await target.getAttribute("id") === await link.getAttribute("href");
  await tab.context().close();
  return { page, places, keys };
}

// Runs in the page: all that opens, and what shows when all above it is open.
function open() {
  const text = (node) => node.textContent.replace(/\s+/g, " ").trim();
  const line = (way) => {
    if (!way.checkVisibility()) throw new Error("an answer does not show when it is opened");
    const out = { brief: text(way).replace(/^[^:]*: /, "") };
    const link = way.querySelector("a[href^='#r']");
    if (!link) return out;
    const td = document.getElementById(link.getAttribute("href").slice(1)).lastElementChild;
    const items = (c) => (c.querySelectorAll(":scope > .items > li").length ? [...c.querySelectorAll(":scope > .items > li")] : [c]);
    const choices = td.querySelectorAll(":scope > div:not(.kit)");
    out.choices = [...(choices.length ? choices : [td])].map((c) => items(c).flatMap((item) => {
      const count = item.querySelector(":scope > b"), part = item.querySelector(":scope > a, :scope > .no");
      return count ? [[parseInt(count.textContent), part.textContent]] : [];
    })).filter((c) => c.length);
    return out;
  };
  const at = (box) => {
    box.open = true;
    const ways = [...box.querySelectorAll(":scope > ul > li")];
    const node = ways.length ? { ask: text(box.querySelector(":scope > p > a")), ways: {} } : { end: line(box.querySelector(":scope > p")) };
    for (const way of ways) {
      const inner = way.querySelector(":scope > details");
      if (inner) node.ways[text(inner.querySelector(":scope > summary"))] = at(inner);
      else node.ways[text(way).replace(/: .*/, "")] = { end: line(way) };
    }
    box.open = false;
    return node;
  };
  const places = {};
  for (const box of document.querySelectorAll(".steps > li > details")) {
    const name = box.querySelector(":scope > summary").cloneNode(true);
    name.querySelector(".state")?.remove();
    places[text(name).replace(/^\d+ /, "")] = at(box);
  }
  return places;
}

// Each page that is led by keys has a browser of its own, since a keyboard belongs to one page; the others share one.
async function lead(page) {
  const browser = await launch();
  const out = [await keyboard(browser, page), await plain(browser, page)];
  await browser.close();
  return out;
}
async function tell() {
  const browser = await launch(), out = [];
  for (const page of pages) out.push(await (told[page][0]?.words !== undefined ? typing : byAddress)(browser, page, told[page]));
  await browser.close();
  return out;
}
const driven = Object.keys(told).length ? await tell() : await Promise.all(pages.map(lead));
process.stdout.write(JSON.stringify(Object.keys(told).length ? { told: driven } : { keyboard: driven.map(([k]) => k), plain: driven.map(([, p]) => p) }));
