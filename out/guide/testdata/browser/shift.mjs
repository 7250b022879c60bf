// Opens addresses in a real browser over a line that brings scripts and pictures only once the page
// has been painted, and prints, as a JSON list, whether it was painted before them, what it waited
// for, by how many pixels it became longer, how much of it moved (cumulative layout shift, as https://wicg.github.io/layout-instability/
// adds it up) and what moved:
//
//   node shift.mjs MODULES CHROMIUM ADDRESS...
import { createRequire } from "node:module";
import path from "node:path";

const [modules, executablePath, ...addresses] = process.argv.slice(2);
const require = createRequire(import.meta.url);
const { chromium } = require(path.resolve(modules, "playwright-core"));

const blankAtMost = 20_000; // milliseconds after which a page counts as one that waits for what is late

// A tab in which scripts and pictures are late. `late` counts what was held back until the first paint.
async function slow(context) {
  const tab = await context.newPage();
  const held = [];
  let painted = false, late = 0;
  const release = () => {
    painted = true;
    for (const go of held.splice(0)) go();
  };
  await tab.exposeFunction("firstPaint", release);
  await tab.route("**/*", async (route) => {
    if (!painted && !["document", "stylesheet"].includes(route.request().resourceType())) {
      late++;
      await new Promise((go) => held.push(go));
    }
    await route.continue();
  });
  return { tab, release, late: () => late };
}

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const out = [];
for (const width of [360, 1280]) {
  const context = await browser.newContext({ viewport: { width, height: 800 } });
  await context.addInitScript(() => {
    globalThis.shifts = [];
    globalThis.moves = new PerformanceObserver((list) => globalThis.shifts.push(...list.getEntries()));
    globalThis.moves.observe({ type: "layout-shift", buffered: true });
    new PerformanceObserver((list) => {
      if (list.getEntriesByName("first-contentful-paint").length) globalThis.firstPaint();
    }).observe({ type: "paint", buffered: true });
  });
  for (const address of addresses) {
    const { tab, release, late } = await slow(context);
    await tab.goto(address, { waitUntil: "commit" });
    const painted = await tab.waitForFunction(() => performance.getEntriesByName("first-contentful-paint").length > 0, null, { timeout: blankAtMost })
      .then(() => true, () => false);
    const height = () => tab.evaluate(() => document.documentElement.scrollHeight);
    const before = await height();
    release();
    await tab.waitForLoadState("networkidle");
    out.push({ address, width, painted, late: late(), grown: await height() - before, ...(await tab.evaluate(async () => {
      for (let frames = 0; frames < 2; frames++) await new Promise(requestAnimationFrame);
      globalThis.shifts.push(...globalThis.moves.takeRecords());
      return {
        moved: globalThis.shifts.reduce((sum, s) => sum + s.value, 0),
        what: globalThis.shifts.flatMap((s) => s.sources.map(({ node }) => node?.parentNode ? `${node.nodeName} ${node.id || node.className}` : "what is gone")),
      };
    })) });
    await tab.close();
  }
  await context.close();
}
await browser.close();
process.stdout.write(JSON.stringify(out));
