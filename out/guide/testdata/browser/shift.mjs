// Opens addresses in a real browser and prints, as a JSON list, how much of each moved
// while it was loaded (cumulative layout shift, as https://wicg.github.io/layout-instability/
// adds it up) and what moved:
//
//   node shift.mjs MODULES CHROMIUM ADDRESS...
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
  for (const address of addresses) {
    const tab = await context.newPage();
    await tab.goto(address, { waitUntil: "networkidle" });
    // On a busy machine the first paint comes after the last byte.
    await tab.waitForFunction(() => performance.getEntriesByName("first-contentful-paint").length > 0);
    out.push({ address, width, ...(await tab.evaluate(() => ({
      painted: performance.getEntriesByName("first-contentful-paint").length,
      moved: globalThis.shifts.reduce((sum, s) => sum + s.value, 0),
      what: globalThis.shifts.flatMap((s) => s.sources.map(({ node }) => node?.parentNode ? `${node.nodeName} ${node.id || node.className}` : "what is gone")),
    }))) });
    await tab.close();
  }
  await context.close();
}
await browser.close();
process.stdout.write(JSON.stringify(out));
