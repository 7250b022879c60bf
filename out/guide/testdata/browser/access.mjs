// Tries what those need who see little, hear pages, use keys, or have set their system otherwise, and
// prints what it saw as one JSON object:
//
//   node access.mjs MODULES CHROMIUM FOLDER PAGE... < TREES
//
// TREES lists, as JSON, the pages whose accessibility trees are told. Nothing is judged here; the Go test
// does that.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, executablePath, folder, ...pages] = process.argv.slice(2);
const { chromium } = createRequire(import.meta.url)(path.resolve(modules, "playwright-core"));
const address = (page) => pathToFileURL(path.join(folder, page.split("#")[0])).href + page.slice(page.split("#")[0].length);
const desk = { width: 1280, height: 900 };
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const seen = { trees: {}, views: [], keys: [] };
// One tab for all, since a tab more costs as much as a look at a page does.
const tab = await (await browser.newContext({ viewport: desk, bypassCSP: true })).newPage();
const cdp = await tab.context().newCDPSession(tab);
async function open(page) {
  if (tab.url().split("#")[0] === address(page).split("#")[0]) await tab.goto("about:blank"); // an address that only differs in what follows # loads nothing
  await tab.goto(address(page));
}

for (const page of JSON.parse(readFileSync(0, "utf8"))) {
  await open(page);
  seen.trees[page] = outline((await cdp.send("Accessibility.getFullAXTree")).nodes);
}

// The tree as lines: the role and the name of what is told, deeper by what it is in. What only groups
// for the layout is left out, and so are texts that the name of what they are in holds.
function outline(nodes) {
  const byId = new Map(nodes.map((n) => [n.nodeId, n])), lines = [];
  const silent = new Set(["generic", "none", "InlineTextBox", "RootWebArea", "ListMarker", "LineBreak", "SvgRoot", "GenericContainer"]);
  const walk = (n, depth, above) => {
    const role = n.role?.value ?? "", name = (n.name?.value ?? "").replace(/\s+/g, " ").trim();
    const told = !n.ignored && !silent.has(role) && !(role === "StaticText" && (!name || above.includes(name)));
    if (told) {
      const says = (n.description?.value ?? "").replace(/\s+/g, " ").trim();
      lines.push("  ".repeat(depth) + (role === "StaticText" ? name : `${role}${name ? `: ${name}` : ""}${says ? ` (${says})` : ""}`));
    }
    for (const id of n.childIds ?? []) if (byId.has(id)) walk(byId.get(id), depth + (told ? 1 : 0), told && role !== "StaticText" ? name : above);
  };
  walk(nodes[0], 0, "");
  return lines;
}

// A font that is installed nowhere, in place of every other.
const font = (name) => {
  const data = readFileSync(path.resolve(modules, `@fontsource/${name}/files/${name}-latin-400-normal.woff2`), "base64");
  return `@font-face { font-family: other; src: url(data:font/woff2;base64,${data}); } * { font-family: other !important; }`;
};

// Each way of looking: a small window, much magnified, others' colours, no motion, other fonts and spaces.
const ways = [
  { name: "256 px", width: 256 },
  { name: "400 % of 1280 px", width: 320, deviceScaleFactor: 4 },
  { name: "forced colours", width: 360, forcedColors: "active" },
  { name: "reduced motion", width: 360, reducedMotion: "reduce" },
  { name: "a narrower font", width: 360, style: font("roboto-condensed") },
  { name: "a wider font", width: 360, style: font("michroma") },
  { name: "a wider font on a tablet", width: 768, style: font("michroma") },
  { name: "letters close together", width: 360, style: "* { letter-spacing: -.05em !important; }" },
  { name: "letters far apart", width: 360, style: "* { letter-spacing: .12em !important; word-spacing: .16em !important; }" },
];
for (const page of pages) {
  await open(page);
  for (const { name, width, style, deviceScaleFactor, forcedColors, reducedMotion } of ways) {
    await tab.setViewportSize({ width, height: 640 });
    if (deviceScaleFactor) await cdp.send("Emulation.setDeviceMetricsOverride", { width, height: 640, deviceScaleFactor, mobile: false });
    await tab.emulateMedia({ forcedColors: forcedColors ?? "none", reducedMotion: reducedMotion ?? "no-preference" });
    const tag = style && await tab.addStyleTag({ content: style });
    const fonts = await tab.evaluate(() => document.fonts.ready.then((all) => [...all].filter((f) => f.status === "loaded").length));
    seen.views.push({ way: name, page, fonts, ...(await tab.evaluate(look)) });
    await tag?.evaluate((e) => e.remove());
  }
}
await tab.emulateMedia({ forcedColors: "none", reducedMotion: "no-preference" });
await tab.setViewportSize(desk);

// Runs in the page.
function look() {
  const root = document.documentElement;
  document.querySelectorAll("details").forEach((d) => { d.open = true; });
  const edge = root.clientWidth + 1, wide = [...document.querySelectorAll("main *")].filter((e) => e.getBoundingClientRect().right > edge && getComputedStyle(e).position !== "absolute");
  const paper = getComputedStyle(document.body).backgroundColor;
  return {
    sideways: root.scrollWidth - root.clientWidth,
    wide: wide.slice(0, 3).map((e) => e.outerHTML.slice(0, 100)),
    moving: document.getAnimations().length + [...document.querySelectorAll("*")].filter((e) => parseFloat(getComputedStyle(e).transitionDuration) > 0).length,
    astray: [...document.querySelectorAll(".spot")].filter((e) => { const at = (s) => { const r = e.querySelector(s).getBoundingClientRect(); return r.top + r.height / 2; }; return Math.abs(at("circle") - at("text")) > 6; }).length,
    unseen: [...document.querySelectorAll(".bars rect:not(.absent), .bars line, .spot circle")].filter((e) => [paper, "none"].includes(getComputedStyle(e).stroke)).length,
    low: [...document.querySelectorAll("button, summary, select, .one input, .jump a")].map((e) => e.getBoundingClientRect()).filter((r) => r.height > 0 && r.height < 43.5).length,
    cut: [...document.querySelectorAll("button, summary, .jump a")].filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => e.textContent.slice(0, 60)),
  };
}

// By keys alone: where the Tab key stops, and what an answer does.
for (const page of pages) {
  await open(page);
  const stops = [];
  for (let i = 0; i < 40; i++) {
    await tab.keyboard.press("Tab");
    const stop = await tab.evaluate(() => {
      const e = document.activeElement, box = e.getBoundingClientRect(), name = e.ariaLabel || e.labels?.[0]?.textContent || e.textContent;
      return e === document.body ? null : { name: name.replace(/\s+/g, " ").trim(), shown: box.width > 0 && box.height > 0 };
    });
    if (!stop) break;
    stops.push(stop);
  }
  const answer = tab.locator(".one .values button").first();
  let after = null;
  if (await answer.count()) {
    after = await tab.evaluate(() => ({ hints: [...document.querySelectorAll(".one .values > li")].map((li) => ({
      beside: li.children.length - 1,
      tied: (li.querySelector("button").getAttribute("aria-describedby") ?? "").split(" ").filter((id) => id && li.querySelector("#" + CSS.escape(id))).length,
    })) }));
    await answer.focus();
    await tab.keyboard.press("Enter");
    await tab.waitForFunction(() => document.activeElement.matches(".one h3"));
    Object.assign(after, await tab.evaluate(() => {
      const box = document.activeElement.getBoundingClientRect(), style = getComputedStyle(document.activeElement);
      return { ring: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2, inside: box.top >= 0 && box.bottom <= innerHeight,
        status: document.querySelector(".one [role=status]").textContent };
    }));
  }
  seen.keys.push({ page, stops, after });
}
await browser.close();
process.stdout.write(JSON.stringify(seen));
