// Narrows the list of platforms as somebody types. The field is hidden until this script
// runs; where scripts are off, the jumps lead through the list.
"use strict";
(() => {
const box = document.querySelector("[data-filter]");
if (!box) return;
const field = box.querySelector("input"), status = box.querySelector("[role=status]"), section = box.parentNode;

// As the search says it.
const spoken = globalThis.guideWords;
const say = (key, ...args) => (spoken?.words[key]?.[0] ?? key).replace(/%(?:\[(\d+)\])?[sd]/g, (_, n) => (n ? args[n - 1] : args.shift()));
// As the search does.
const fold = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/ς/g, "σ").replace(/[^\p{L}\p{N}]+/gu, " ").trim();
const heading = (group) => group?.querySelector(":scope > h3")?.textContent ?? "";
const items = [...section.querySelectorAll(".names > li:not([id]), .platforms > li")].map((li) => {
	const link = li.querySelector("a"), group = li.closest("section > .group");
	const maker = link.closest(".names")?.querySelector("a + bdi") ? "" : heading(group); // on the A to Z it stands behind the name
	const words = fold(`${maker} ${li.textContent}`);
	const years = [...(li.querySelector(".sub") ?? li.lastChild).textContent.matchAll(/(\d{4})(?:\s\p{L}+\s(\d{4}))?/gu)];
	return { li, link, words: `${words} ${fold(link.textContent).replaceAll(" ", "")}`, years: years.map(([, from, to = from]) => [from, to]) };
});
const groups = [...section.querySelectorAll(".group")].reverse(); // inner ones first
const jumps = section.querySelectorAll("nav.letters"); // which would lead to what is hidden

// Each word stands in the name, the maker or the years, or is one of the years.
const meets = (item, asked) => asked.every((w) => item.words.includes(w) || /^\d{4}$/.test(w) && item.years.some(([from, to]) => from <= w && w <= to));
const shown = () => items.filter((i) => !i.li.hidden);
const narrow = () => {
	const asked = fold(field.value).split(" ").filter((w) => w);
	for (const i of items) i.li.hidden = !meets(i, asked);
	for (const g of groups) g.hidden = !g.querySelector(":scope > ul > li:not([hidden]), .group:not([hidden])");
	for (const nav of jumps) nav.hidden = asked.length > 0;
	const n = shown().length;
	status.textContent = !asked.length ? "" : n ? say("%d of %d platforms.", n, items.length) : say("No platform has all of that. Numbers of parts stand in the A to Z.");
};
field.addEventListener("input", narrow);
field.addEventListener("keydown", (event) => {
	const [first, ...more] = shown();
	if (event.key === "Escape") field.value = "";
	else if (event.key === "Enter" && field.value && first) more.length ? first.link.focus() : first.link.click();
	else return;
	event.preventDefault();
	narrow();
});
addEventListener("pageshow", narrow); // with what a browser has kept in the field
box.hidden = false;
})();
