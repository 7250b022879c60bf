// Opens addresses in a real browser and prints, as a JSON list, how much of each moved
// while it was loaded (cumulative layout shift, as https://wicg.github.io/layout-instability/
// adds it up) and what moved:
//
//   node shift.mjs MODULES CHROMIUM ADDRESS...
//
// The server keeps back what is neither a page nor a style sheet from /hold until /release, which is asked
// for once the page has been painted: a page that waits for a script stays white, and the wait for it ends in an error.
import { createRequire } from "node:module";
import path from "node:path";

const [modules, executablePath, ...addresses] = process.argv.slice(2);
const require = createRequire(import.meta.url);
const { chromium } = require(path.resolve(modules, "playwright-core"));

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const out = [];
for (const width of [360, 1280]) {
  const context = await browser.newContext({ viewport: { width, height: 800 } });
  await context.addInitScript(() => {
    globalThis.shifts = [];
    new PerformanceObserver((list) => globalThis.shifts.push(...list.getEntries())).observe({ type: "layout-shift", buffered: true });
  });
  const tab = await context.newPage();
  for (const address of addresses) {
    const server = new URL(address).origin;
    await fetch(`${server}/hold`);
    await tab.goto(address, { waitUntil: "commit" });
    await tab.waitForFunction(() => performance.getEntriesByName("first-contentful-paint").length > 0);
    const early = await tab.evaluate(() => performance.getEntriesByType("resource").filter((r) => r.initiatorType === "script" && r.responseEnd > 0).map((r) => r.name));
    await fetch(`${server}/release`);
    await tab.waitForLoadState("networkidle");
    out.push({ address, width, early, ...(await tab.evaluate(() => ({
      painted: performance.getEntriesByName("first-contentful-paint").length,
      moved: globalThis.shifts.reduce((sum, s) => sum + s.value, 0),
      what: globalThis.shifts.flatMap((s) => s.sources.map(({ node }) => node?.parentNode ? `${node.nodeName} ${node.id || node.className}` : "what is gone")),
    }))) });
  }
  await context.close();
}
await browser.close();
process.stdout.write(JSON.stringify(out));
