// Narrows complaints, and what to look at before anything is fitted, to the vehicle that finder.js
// has asked about: shows at each place of a complaint what fits there, and puts the inspections before
// the fits. Without it, or before anything is answered, all of them stand with their vehicles.
"use strict";
(() => {
const find = (node, what) => [...node.querySelectorAll(what)];
const matter = document.querySelector(".matter"), inspect = document.querySelector(".inspect");

// Whether what is said of some vehicles holds for none of those that it may be, for some or for all.
const holds = (item, { boxes, left, all }) => {
	const where = item.dataset.in ? boxes(item.dataset.in) : [all];
	if (!left.some((b) => where.some((r) => b.every((values, i) => values & r[i])))) return "none";
	return where.some((r) => left.every((b) => b.every((values, i) => !(values & ~r[i])))) ? "all" : "some";
};
const narrow = (root, finder) => find(root, ":is(.check, .suspects, .cautions) > li").forEach((item) => {
	const is = holds(item, finder), on = find(item, ".on")[0];
	item.hidden = is === "none";
	if (on) on.hidden = is === "all";
});

// What fits at a place of a complaint, or the way to find out.
const suspect = (item, { el, button, copy, places, lefts, endOf, go, answers, none }) => {
	const i = places.findIndex((p) => p.home.id === item.dataset.at), e = !none && endOf(lefts[i]), begun = answers.size > 0;
	find(item, ":scope > .mine, :scope > button").forEach((n) => n.remove());
	if (i < 0 || none) return;
	if (e && begun) item.append(el("div", { className: "mine" }, ...copy(e.cell.childNodes), ...copy(places[i].home.querySelectorAll(".cautions:not(table *)"))));
	else if (places[i].tree && !e) item.append(button(matter.dataset.find, () => go(answers, i)));
};
const gone = (none) => {
	find(matter, ":scope > .lost").forEach((n) => n.remove());
	if (none) matter.children[1].after(Object.assign(document.createElement("p"), { className: "lost", textContent: matter.dataset.gone }));
};

// The inspections of the vehicle, before its fits.
const before = (at, { el, copy }) => {
	const list = find(inspect, ".cautions > li").filter((li) => !li.hidden);
	if (!at || !list.length) return;
	const block = el("div", { className: "looks" }, el("h3", {}, ...copy(inspect.firstElementChild.childNodes)), el("ul", { className: "cautions" }, ...copy(list)));
	at.before(block);
};

const show = () => {
	const finder = globalThis.guideFinder;
	if (!finder) return;
	if (matter) {
		matter.querySelectorAll(".complaint").forEach((c) => narrow(c, finder));
		find(matter, ".suspects > li").forEach((item) => suspect(item, finder));
		gone(finder.none);
	}
	if (!inspect) return;
	narrow(inspect, finder);
	if (finder.done) {
		before(finder.body.firstChild, finder);
		before(finder.order.querySelector("table, h3") ?? finder.order.lastChild, finder);
	}
};
document.addEventListener("answered", show);
show();
})();
