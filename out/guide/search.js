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
  function load(name) {
    if (!loading.has(name))
      loading.set(name, new Promise((done, failed) => {
        const script = document.createElement("script");
        script.src = new URL(name, home);
        script.onload = done;
        script.onerror = () => {
          loading.delete(name);
          failed(new Error(name));
        };
        document.head.append(script);
      }));
    return loading.get(name);
  }

  // As Fold does when the index is made.
  function fold(text) {
    return text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/ς/g, "σ")
      .replace(/[^\p{L}\p{N}]+/gu, " ").trim();
  }

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
      await load(`search/${n}.js?${directory.version}`);
      const { entries, keys } = pieces.get(n);
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

  async function search() {
    const mine = ++latest;
    const folded = fold(field.value);
    if (!folded) return show([], "");
    try {
      await load("search-index.js");
      const words = folded.split(" ").map((w) => [...w].slice(0, keyAtMost).join(""));
      const whole = [...words.join("")].slice(0, keyAtMost).join("");
      const found = new Map();
      let more = await gather(found, whole, []);
      if (words.length > 1 && found.size < shownAtMost) {
        const width = (w) => stretch(w)[1] - stretch(w)[0] + (directory.common.includes(w) ? 1000 : 0);
        const rarest = words.reduce((a, b) => (width(b) < width(a) || width(b) === width(a) && b.length > a.length ? b : a));
        more = await gather(found, rarest, words) || more;
      }
      if (mine === latest) show([...found.values()], told(found.size, more));
    } catch {
      if (mine === latest) show([], say("The search could not be loaded. Everything is in the A to Z as well."));
    }
  }

  function told(n, more) {
    if (more) return n ? count(n, "The first one. Go on typing to find others.", "The first %d. Go on typing to find others.") : say("Too much to look through: type more of a number or a name.");
    if (!n) return say("Nothing found. The A to Z lists all numbers.");
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
    load("search-index.js").catch(() => {}); // a query tells what cannot be loaded
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
      const asked = fold(field.value).replaceAll(" ", "");
      const exact = found.filter((a) => fold(a.querySelector("bdi").textContent).replaceAll(" ", "") === asked);
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
