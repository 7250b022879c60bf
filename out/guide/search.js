// The search field of every page. It is hidden until this script runs; where scripts are
// off, the A to Z pages lead to the same places. The index is loaded when the field is
// entered, as scripts, since pages opened from a folder may load nothing else: each
// calls guideSearch with what it holds (see out/search).
(() => {
  "use strict";
  const box = document.querySelector("[data-search]");
  if (!box) return;
  const root = new URL(".", document.currentScript.src);
  const field = box.querySelector("input");
  const status = box.querySelector("[role=status]");
  const list = box.querySelector("ol");
  const shownAtMost = 20; // results
  const piecesAtMost = 4; // of the index that one query may load
  const keyAtMost = 32; // letters, as in the index
  const pieces = new Map();
  const home = new URL(box.dataset.search, root); // of the pages of this language, with an index of its own
  let directory;
  let latest = 0; // the newest query: what an older one finds late is not shown

  // What is said in English, in the language of the page (words.js): %s and %d stand for what follows.
  const spoken = self.guideWords, forms = (key) => spoken?.words[key] ?? [key];
  const fill = (text, args) => text.replace(/%(?:\[(\d+)\])?[sd]/g, (_, n) => (n ? args[n - 1] : args.shift()));
  const say = (key, ...args) => fill(forms(key)[0], args);
  const count = (n, one, other) => {
    const [many, single = many] = forms(other);
    if (!spoken) return fill(n === 1 ? one : other, [n]);
    return fill(new Intl.PluralRules(spoken.language).select(n) === "one" ? single : many, [n]);
  };

  self.guideSearch = (n, data) => {
    if (n < 0) directory = data;
    else pieces.set(n, data);
  };

  const loading = new Map();
  // The first file has one name for ever, and says which pieces there are: a browser that kept it would
  // look for what is no more.
  const now = `?${Date.now()}`;
  function load(name, version = "") {
    if (!loading.has(name))
      loading.set(name, new Promise((done, failed) => {
        const script = document.createElement("script");
        script.src = new URL(name + version, home);
        script.onload = done;
        script.onerror = () => {
          loading.delete(name);
          failed(new Error(name));
        };
        document.head.append(script);
      }));
    return loading.get(name);
  }

  async function piece(n) {
    await load(`search/${n}.js?${directory.version}`);
    return pieces.get(n);
  }

  // As Fold does when the index is made.
  function fold(text) {
    return text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase()
      .replace(/[ςßœæø]/g, (c) => ({ ς: "σ", ß: "ss", œ: "oe", æ: "ae", ø: "o" })[c])
      .replace(/[^\p{L}\p{N}]+/gu, " ").trim();
  }

  const squeezed = (text) => fold(text).replaceAll(" ", "");

  // The first and the last piece that can hold keys that begin with a text.
  function stretch(key) {
    const keys = directory.keys;
    let first = 0;
    while (first + 1 < keys.length && keys[first + 1] < key) first++;
    let last = first - 1;
    while (last + 1 < keys.length && keys[last + 1] <= key + "\uffff") last++;
    return [first, last];
  }

  // Adds what stands under keys that begin with a text and has all words in it. True:
  // there may be more.
  async function gather(found, key, words) {
    const [first, last] = stretch(key);
    for (let n = first; n <= last; n++) {
      if (n - first === piecesAtMost) return true;
      const { entries, keys } = await piece(n);
      for (let k = 0; k < keys.length; k += 2) {
        if (!keys[k].startsWith(key)) continue;
        for (const at of keys[k + 1]) {
          const entry = entries[at];
          const text = fold(`${entry[1]} ${entry[2]}`);
          if (!words.every((w) => text.includes(w))) continue;
          if (found.size === shownAtMost && !found.has(entry.join())) return true;
          found.set(entry.join(), entry);
        }
      }
    }
    return directory.common.some((c) => c.startsWith(key));
  }

  // What stands under a key itself.
  async function exactly(key) {
    const out = new Map();
    let [n, last] = stretch(key);
    for (const first = n; n <= last && (n === first || directory.keys[n] === key); n++) {
      const { entries, keys } = await piece(n);
      for (let k = 0; k < keys.length; k += 2) if (keys[k] === key) for (const at of keys[k + 1]) out.set(entries[at].join(), entries[at]);
    }
    return [...out.values()];
  }

  // Whether a word stands anywhere: at the beginning of a key, or in the name of a place.
  const isWord = (w, text) => ` ${fold(text)}`.includes(` ${w}`);
  const isPlace = (w, [name, , own]) => isWord(w, name) || (own && isWord(w, own));
  async function known(w) {
    const [first, last] = stretch(w);
    if (last > first || directory.places.some((p) => isPlace(w, p))) return true;
    return last === first && (await piece(first)).keys.some((k) => k.startsWith?.(w));
  }

  // Words that name a platform, in whatever order with a place or a part on it and a model year.
  // why says what stands against it.
  async function together(words) {
    let out = [], why = [];
    for (let n = Math.min(words.length - 1, 4); n && !out.length; n--)
      for (let at = 0; at + n <= words.length; at++) {
        const run = words.slice(at, at + n).join(""), rest = [...words.slice(0, at), ...words.slice(at + n)];
        const named = (await exactly(run)).filter((e) => e[4]?.length === 3 && Array.isArray(e[4][1]));
        const whole = named.filter((e) => squeezed(e[1]) === run);
        for (const platform of whole.length ? whole : named) {
          const [found, against] = await on(platform, rest);
          out = out.concat(found);
          why = why.concat(against);
        }
      }
    return [out, why];
  }

  // What the other words say of a platform: a part's number, or a place and a year.
  async function on([kind, title, , href, [number, years, places]], words) {
    const parts = (await exactly(words.join(""))).filter((e) => e[4] && !Array.isArray(e[4][1]) && squeezed(e[1]) === words.join(""));
    const fits = parts.filter((e) => e[4].includes(number));
    if (fits.length) return [fits.map(([kind, part, note, href]) => [kind, part, `${title}: ${note}`, href]), []];
    if (parts.length) return [[], parts.map((e) => say("%s is not offered on %s.", e[1], title))];
    const [year = "", second] = words.filter((w) => /^(19|20)\d\d$/.test(w));
    if (second) return [[], []];
    if (year && !years.some(([from, to]) => from <= year && year <= to))
      return [[], [say("%s is listed for %s, not for %s.", title, years.map(([a, b]) => (a < b ? say("%s to %s", a, b) : a)).join(", ") || say("no year"), year)]];
    const others = words.filter((w) => w !== year), when = year && say("model year %s", year);
    if (!others.length) return [[[kind, title, when, `${href}#?Years=${year}`]], []];
    const named = [...directory.places.entries()].filter(([, p]) => others.every((w) => isPlace(w, p)));
    const here = named.filter(([i]) => places.includes(i)).map(([, [name, anchor]]) => [directory.kinds.length - 1, name, [title, when].filter((x) => x).join(", "),
      `${href}#${year ? "?" + new URLSearchParams({ Position: name, Years: year }) : anchor}`]);
    return [here, here.length ? [] : named.map(([, [name]]) => say("%s has no such place: %s.", title, name))];
  }

  async function search() {
    const mine = ++latest;
    const folded = fold(field.value);
    if (!folded) return show([], "");
    try {
      await load("search-index.js", now);
      const words = folded.split(" ").map((w) => [...w].slice(0, keyAtMost).join(""));
      const whole = [...words.join("")].slice(0, keyAtMost).join("");
      const found = new Map();
      let more = await gather(found, whole, []);
      if (words.length > 1 && found.size < shownAtMost) {
        const width = (w) => stretch(w)[1] - stretch(w)[0] + (directory.common.includes(w) ? 1000 : 0);
        const rarest = words.reduce((a, b) => (width(b) < width(a) || width(b) === width(a) && b.length > a.length ? b : a));
        more = await gather(found, rarest, words) || more;
      }
      const plain = found.size && !words.some((w) => /^\d{4}$/.test(w));
      const [joint, why] = words.length > 1 && !plain ? await together(words) : [[], []];
      if (joint.length) more = false;
      const all = [...joint, ...found.values()].slice(0, shownAtMost);
      const none = all.length || more ? "" : why.length ? [...new Set(why)].slice(0, 3).join(" ") : await nothing(words);
      if (mine === latest) show(all, none || told(all.length, more));
    } catch {
      if (mine === latest) show([], say("The search could not be loaded. Everything is in the A to Z as well."));
    }
  }

  // Why nothing is found.
  async function nothing(words) {
    for (const w of words) if (!(await known(w))) return say("No number and no name here has a word that begins with “%s”. The A to Z lists all numbers.", w);
    return say("Nothing has all of these words together. Leave some out.");
  }

  function told(n, more) {
    if (more) return n ? count(n, "The first one. Go on typing to find others.", "The first %d. Go on typing to find others.") : say("Too much to look through: type more of a number or a name.");
    return count(n, "%d found", "%d found");
  }

  function show(entries, words) {
    list.replaceChildren(...entries.map(([kind, title, note, href]) => {
      const link = document.createElement("a");
      link.href = new URL(href, home);
      const parts = [["span", directory.kinds[kind]], ["bdi", title], ["bdi", note]];
      for (const [tag, text] of parts.filter((p) => p[1])) {
        const element = document.createElement(tag);
        element.textContent = text;
        link.append(element, " ");
      }
      const item = document.createElement("li");
      item.append(link);
      return item;
    }));
    status.textContent = words;
    box.classList.toggle("open", words !== "");
  }

  const links = () => [...list.querySelectorAll("a")];
  let typing;
  field.addEventListener("focus", () => {
    load("search-index.js", now).catch(() => {}); // a query tells what cannot be loaded
    if (field.value) search();
  });
  field.addEventListener("input", () => {
    clearTimeout(typing);
    typing = setTimeout(search, 120);
  });
  box.addEventListener("keydown", async (event) => {
    const stops = [field, ...links()];
    const at = stops.indexOf(document.activeElement);
    if (event.key === "Escape") {
      field.value = "";
      field.focus();
      search();
    } else if (event.key === "ArrowDown" && at + 1 < stops.length) stops[at + 1].focus();
    else if (event.key === "ArrowUp" && at > 0) stops[at - 1].focus();
    else if (event.key === "Enter" && at === 0) {
      clearTimeout(typing);
      await search();
      const found = links();
      const asked = squeezed(field.value);
      const exact = found.filter((a) => squeezed(a.querySelector("bdi").textContent) === asked);
      if (found.length === 1) found[0].click();
      else if (exact.length === 1) exact[0].click();
      else if (found.length) found[0].focus();
    } else return;
    event.preventDefault();
  });
  box.addEventListener("focusout", (event) => {
    if (!box.contains(event.relatedTarget)) box.classList.remove("open");
  });
  box.hidden = false;
})();
