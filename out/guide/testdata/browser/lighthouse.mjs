// Has pages judged by Lighthouse with its own settings (a slow telephone), and prints the
// scores, what cost points, and what was counted while a page was loaded, as JSON:
//
//   node lighthouse.mjs MODULES CHROMIUM ADDRESS...
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, chromePath, ...addresses] = process.argv.slice(2);
const require = createRequire(path.resolve(modules, "package.json"));
const load = async (name) => import(pathToFileURL(require.resolve(name)).href);
const { default: lighthouse } = await load("lighthouse");
const { launch } = await load("chrome-launcher");

const out = [];
const chrome = await launch({ chromePath, chromeFlags: ["--headless=new", "--no-sandbox"], logLevel: "silent" });
for (const address of addresses) {
  const { lhr } = await lighthouse(address, { port: chrome.port, logLevel: "silent", onlyCategories: ["performance", "accessibility", "best-practices", "seo"] });
  const scores = {}, lost = [];
  for (const [name, category] of Object.entries(lhr.categories)) {
    scores[name] = category.score;
    for (const { id, weight } of category.auditRefs) {
      const { score, title, displayValue } = lhr.audits[id];
      if (weight > 0 && score !== null && score < 1) lost.push(`${name}: ${id} ${score}: ${title} ${displayValue || ""}`);
    }
  }
  const requests = lhr.audits["network-requests"].details.items.length;
  const bytes = lhr.audits["total-byte-weight"].numericValue;
  const shift = lhr.audits["cumulative-layout-shift"].numericValue;
  out.push({ address, scores, lost, requests, bytes, shift, error: lhr.runtimeError?.message || "" });
}
await chrome.kill();
process.stdout.write(JSON.stringify(out));
