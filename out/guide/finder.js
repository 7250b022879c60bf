// Asks about a vehicle one question at a time, and lists its parts. All that it knows stands
// in the page; the address holds the answers. compiler/identify/walk says what is asked next.
"use strict";
(() => {
const root = document.getElementById("find");
const list = root && root.querySelector(".steps");
if (!list) return;

const el = (tag, props, ...children) => {
	const out = Object.assign(document.createElement(tag), props);
	out.append(...children);
	return out;
};
const button = (label, onclick, ariaLabel = null) => el("button", { type: "button", onclick, ariaLabel }, label);
const copy = (nodes) => [...nodes].map((n) => n.cloneNode(true));
const find = (node, what) => [...node.querySelectorAll(what)];
const text = (node) => node.textContent.replace(/\s+/g, " ").trim();

// What the page holds. A set is a number with a bit for each member.
const bit = (i) => 1n << BigInt(i);
const set = (runs) => runs.split(",").reduce((out, run) => {
	const [lo, hi = lo] = run.split("-");
	for (let i = +lo; i <= +hi; i++) out |= bit(i);
	return out;
}, 0n);
const asks = find(root, "[data-ask]").sort((a, b) => a.dataset.ask - b.dataset.ask).map((card) => {
	const head = card.querySelector("h4");
	return {
		card, id: "#" + head.id, name: head.childNodes, key: head.id === "years" ? "Years" : text(head), effort: +card.dataset.effort,
		values: find(card, ".values > li").map((li) => ({
			li, name: li.firstElementChild.childNodes, key: "absent" in li.dataset ? "n/a" : text(li.firstElementChild),
		})),
	};
});
const exist = root.dataset.exist && root.dataset.exist.split(";").map((box) =>
	Object.fromEntries(box.split(" ").filter(Boolean).map((term) => term.split("=")).map(([n, values]) => [n, set(values)])));
// Ends are the same where their lines say the same: a text has one number, quick to compare.
const numbers = new Map();
const number = (text) => numbers.get(text) ?? (numbers.set(text, numbers.size), numbers.size - 1);
const end = (at) => {
	const links = find(at, "a").filter((a) => /^#r\d/.test(a.hash));
	const rows = links.map((a) => document.getElementById(a.hash.slice(1)));
	const hidden = at.querySelector(".hid");
	const cell = hidden || (rows[0] || at).lastElementChild || at;
	const kind = hidden ? "hidden" : rows.length ? rows[0].className || "fitted" : "absent";
	return { ask: -1, kind, rows, cell, key: number(kind + cell.innerHTML), brief: hidden ? "not to be told by looking" : links.length ? text(links[0]) : "no such place" };
};
const tree = (at) => {
	const ways = at.querySelector(":scope > ul");
	return !ways ? end(at) : {
		ask: asks.findIndex((a) => a.id === at.querySelector(":scope > p > a").hash),
		ways: [...ways.children].map((li, i) => ({ values: set(li.dataset.v ?? "" + i), next: (li.querySelector("details") ? tree : end)(li.querySelector("details") || li) })),
	};
};
const places = [...list.children].map((li, i) => {
	const details = li.querySelector("details"), home = document.getElementById(li.dataset.at);
	const name = home.querySelector("h3 span").childNodes;
	return {
		n: i + 1, home, name, key: text(name[0].parentNode), tree: details && tree(details),
		state: details && details.firstChild.appendChild(el("span", { className: "state" })),
		spots: root.querySelectorAll(`.spot[data-n="${i + 1}"]`),
	};
});

// What is left to find out, and what to ask next. The answer -1 is that nobody can tell.
let state = { answers: new Map(), place: -1 };
const among = (boxes, ask, values) => boxes && boxes.filter((b) => b[ask] === undefined || b[ask] & values);
const boxesOf = (answers) => [...answers].reduce((boxes, [ask, v]) => (v < 0 ? boxes : among(boxes, ask, bit(v))), exist);
const reduce = (t, boxes, answers, seen) => {
	const one = (l) => seen.get(l.key) || (seen.set(l.key, l), l);
	if (t.ask < 0) return one({ key: t.key, ask: -1, asks: 0n, ends: [t] });
	const v = answers.get(t.ask) ?? -1, next = [];
	let key = "" + t.ask;
	for (const way of t.ways) {
		const values = v < 0 ? way.values : way.values & bit(v), inside = among(boxes, t.ask, values);
		if (!values || inside?.length === 0) continue;
		next.push(reduce(way.next, inside, answers, seen));
		key += `(${values}:${next.at(-1).key})`;
	}
	if (!next.length) return one({ key: number(""), ask: -1, asks: 0n, ends: [] });
	if (next.every((l) => l === next[0])) return next[0];
	return one({ key: number(key), ask: t.ask, next, asks: next.reduce((s, l) => s | l.asks, bit(t.ask)), ends: [...new Set(next.flatMap((l) => l.ends))] });
};
const look = (answers) => {
	const boxes = boxesOf(answers);
	return places.map((p) => p.tree && reduce(p.tree, boxes, answers, new Map()));
};
const chosen = (lefts) => lefts.filter((l, i) => l && (state.place < 0 || state.place === i));
const due = (l) => (l.ask < 0 ? 0n : state.answers.has(l.ask) ? l.next.reduce((s, n) => s | due(n), 0n) : bit(l.ask));
const possible = (ask) => {
	const boxes = boxesOf(state.answers);
	return [...asks[ask].values.keys()].filter((v) => among(boxes, ask, bit(v))?.length !== 0);
};
const ahead = (ask) => {
	const values = possible(ask);
	let sum = 0;
	for (const v of values) {
		const after = chosen(look(new Map(state.answers).set(ask, v))).reduce((s, l) => s | l.asks, 0n);
		asks.forEach((a, i) => { if (after & bit(i) && state.answers.get(i) !== -1) sum += a.effort; });
	}
	return asks[ask].effort + sum / values.length;
};
const nextAsk = (lefts) => {
	if (!state.answers.size && state.place < 0) return +root.dataset.first;
	const now = chosen(lefts).reduce((s, l) => s | due(l), 0n);
	let best = -1, least = Infinity;
	for (const i of asks.keys()) {
		const takes = now & bit(i) ? ahead(i) : Infinity;
		if (takes < least - 1e-9) [best, least] = [i, takes];
	}
	return best;
};

// The address. No value of a workbook is called any or n/a, and no trait Position.
const go = (answers, place = state.place) => {
	const q = new URLSearchParams();
	if (place >= 0) q.set("Position", places[place].key);
	for (const [ask, v] of answers) q.set(asks[ask].key, v < 0 ? "any" : asks[ask].values[v].key);
	location.hash = "?" + q;
};
const read = () => {
	if (location.hash && !location.hash.startsWith("#?")) return state; // elsewhere on the page
	const out = { answers: new Map(), place: -1, lost: false };
	for (const [key, value] of new URLSearchParams(location.hash.slice(2))) {
		const ask = asks.findIndex((a) => a.key === key), v = asks[ask]?.values.findIndex((x) => x.key === value) ?? -1;
		const place = places.findIndex((p) => p.tree && p.key === value);
		if (key === "Position" && place >= 0) out.place = place;
		else if (v >= 0 || (ask >= 0 && value === "any")) out.answers.set(ask, v);
		else out.lost = true;
	}
	return boxesOf(out.answers)?.length === 0 ? { answers: new Map(), place: out.place, lost: true } : out;
};

// What is shown.
const sayPlace = (p) => [el("b", { className: "n" }, p.n), " ", ...copy(p.name)];
const names = (all) => all.flatMap((x, i) => [["", ", ", " and "][i ? 1 + (i === all.length - 1) : 0], ...copy(x.name)]);
const why = (l) => names(asks.filter((_, i) => l.asks & bit(i)));
const pick = el("select", { id: "pick", onchange: () => go(state.answers, +pick.value) }, el("option", { value: -1 }, "all places"),
	...places.flatMap((p, i) => (p.tree ? el("option", { value: i }, `${p.n} ${p.key}`) : [])));
const head = el("h3", { tabIndex: -1 }), body = el("div", { className: "now" }), soFar = el("ol", { className: "sofar" });
const again = button("Start again", () => go(new Map()));
const status = el("p", { role: "status" });
root.insertBefore(el("div", { className: "one" }, el("p", { className: "pick" }, el("label", { htmlFor: "pick" }, "Find the part for"), " ", pick),
	head, body, soFar, again, status), root.querySelector(".by"));
const order = el("section", { className: "order", ariaLabel: "Parts to order", id: "order" });
document.querySelector(".usual").before(order);

const showAsk = (ask, lefts) => {
	const { card, name, values } = asks[ask];
	const decides = places.filter((_, i) => lefts[i] && lefts[i].asks & bit(ask));
	const answer = (v, ...label) => button("", () => go(new Map(state.answers).set(ask, v))).appendChild(el("span", {}, ...label)).parentNode;
	head.replaceChildren(`Question ${state.answers.size + 1}: `, ...copy(name));
	body.replaceChildren(...copy(card.querySelectorAll(":scope > :not(h4, ul, .why)")), el("p", { className: "why" }, "It decides: ", ...names(decides), "."),
		el("ul", { className: card.querySelector("ul").className }, ...possible(ask).map((v) => {
			const [name, ...rest] = copy(values[v].li.childNodes), hints = rest.filter((n) => n.nodeType === 1);
			return el("li", {}, answer(v, ...name.childNodes, ...rest.filter((n) => n.nodeType === 3)), ...hints);
		}), el("li", {}, answer(-1, "I cannot tell"), el("p", {}, `Up to ${decides.length} of the places then stay open.`))),
		el("p", {}, "None of these? Then an answer is wrong, or it is no vehicle of this guide: stop and ask."));
};
const showEnd = (lefts) => {
	const open = chosen(lefts).filter((l) => l.ask >= 0), p = places[state.place], e = p && !open.length && lefts[state.place].ends[0];
	head.replaceChildren(...(open.length ? ["As far as the answers go"] : p ? sayPlace(p) : ["Your vehicle is known"]));
	body.replaceChildren(...(e ? copy(e.cell.childNodes) : []), el("p", {}, open.length ? `${open.length} open: order nothing for them before they are settled. ` : "",
		el("a", { href: "#order" }, "See the list of parts"), ". The address of this page holds the answers: pass it on."));
};
const mark = (lefts) => places.forEach((p, i) => {
	const l = lefts[i], e = l && l.ask < 0 && l.ends[0], begun = state.answers.size > 0;
	if (p.state) p.state.textContent = e ? e.brief : begun ? `${l.ends.length} possible` : "";
	const kind = !e ? "" : e.kind === "fitted" ? " known" : ["absent", "none", "with"].includes(e.kind) ? " none" : " ask";
	for (const s of p.spots) s.setAttribute("class", "spot" + kind + (state.place === i ? " chosen" : ""));
	const rows = l && begun && new Set(l.ends.flatMap((x) => x.rows));
	for (const row of p.home.querySelectorAll("tbody tr")) {
		row.classList.toggle("mine", !!e && rows && rows.has(row));
		row.classList.toggle("not", !!rows && !rows.has(row));
	}
});

// The list of parts.
const cell = (label, ...children) => {
	const td = el("td", {}, ...children);
	td.dataset.l = label;
	return td;
};
const orderRows = ({ p, e }) => {
	const several = e.cell.querySelectorAll(":scope > div:not(.kit)");
	const rows = [...(several.length ? several : [e.cell])].flatMap((choice, i) => {
		const items = choice.querySelectorAll(":scope > .items > li");
		return [...(items.length ? items : [choice])].map((item, j) => {
			const part = item.cloneNode(true), count = part.querySelector("b");
			part.querySelectorAll(":scope > i, :scope > .cautions").forEach((n) => n.remove());
			count?.remove();
			return el("tr", {}, cell("Choice", j ? "and" : i ? "or" : several.length ? "first choice" : ""), cell("Quantity", count ? parseInt(count.textContent) : ""), cell("Part", ...part.childNodes));
		});
	});
	const where = p.home.querySelector(".pos");
	rows[0].prepend(el("th", { scope: "rowgroup", rowSpan: rows.length }, ...sayPlace(p), where ? el("span", { className: "pos" }, ...copy(where.childNodes)) : ""));
	return el("tbody", {}, ...rows);
};
const cautionsOf = (found) => {
	const by = new Map();
	for (const { p, e } of found)
		for (const c of [...e.cell.querySelectorAll(".caution"), ...p.home.querySelectorAll(":scope > .cautions > li")])
			by.set(text(c), { c, ps: [...(by.get(text(c))?.ps || []), p.n] });
	const rank = ({ c }) => "caution danger, caution warning, caution notice, caution note".indexOf(c.className);
	return [...by.values()].sort((a, b) => rank(a) - rank(b)).map(({ c, ps }) => {
		const out = c.cloneNode(true);
		out.lastElementChild.prepend(el("b", {}, ps.join(", ") + ": "));
		return out;
	});
};
const rulesOf = (found) => {
	const rules = document.querySelector(".rules")?.cloneNode(true), parts = new Set(found.flatMap(({ e }) => find(e.cell, "a").map((a) => a.href)));
	for (const row of rules ? [...rules.tBodies[0].rows] : []) {
		const own = row.cells[0].querySelector("a");
		if (own && !parts.has(own.href)) row.remove();
	}
	return rules?.tBodies[0].rows.length ? [el("h3", {}, "Rules for these parts"), rules] : [];
};
const section = (title, all, say) => (all.length ? [el("h3", {}, title), el("ul", {}, ...all.map((x) => el("li", {}, ...sayPlace(x.p), ": ", ...say(x))))] : []);
const print = () => {
	document.body.classList.add("only-list");
	window.print();
	document.body.classList.remove("only-list");
};
const showOrder = (lefts) => {
	const all = places.map((p, i) => ({ p, l: lefts[i], e: lefts[i]?.ask < 0 && lefts[i].ends[0] })).filter(({ p }) => state.place < 0 || places[state.place] === p);
	const of = (...kinds) => all.filter(({ e }) => e && kinds.includes(e.kind)), found = of("fitted"), nothing = of("with", "none");
	const release = document.querySelector(".release"), cautions = cautionsOf(found);
	order.replaceChildren(el("h2", {}, "Parts to order"),
		el("p", {}, ...copy(document.querySelectorAll("h1 bdi")), release ? `, ${text(release)}` : "", `, printed on ${new Date().toLocaleDateString("sv")}`),
		el("ul", { className: "sofar" }, ...copy(soFar.children)),
		found.length ? el("table", { className: "cases parts-list" }, el("caption", {}, "Parts to order"),
			el("thead", {}, el("tr", {}, ...["Place", "Choice", "Quantity", "Part"].map((x) => el("th", { scope: "col" }, x)))), ...found.map(orderRows)) : "",
		...section("Settle these first", all.filter((x) => !found.includes(x) && !nothing.includes(x) && x.e?.kind !== "absent"), ({ l, e }) => (e ? copy(e.cell.childNodes) : l ? ["depends on ", ...why(l), ": ", l.ends.map((x) => x.brief).join("; or ")] : ["read its table"])),
		...section("Nothing to order", nothing, ({ e }) => copy(e.cell.childNodes)),
		...(cautions.length ? [el("h3", {}, "Cautions and notes, by place"), el("ul", { className: "cautions" }, ...cautions)] : []),
		...rulesOf(found), button("Print this list", print));
	order.querySelectorAll(".sofar button").forEach((b) => b.remove());
};

const show = (move) => {
	const before = state;
	state = read();
	const lefts = look(state.answers), ask = nextAsk(lefts), given = [...state.answers];
	pick.value = state.place;
	soFar.replaceChildren(...given.map(([ask, v], i) => el("li", {}, ...copy(asks[ask].name), ": ", el("b", {}, ...(v < 0 ? ["cannot be told"] : copy(asks[ask].values[v].name))), " ",
		button("Change", () => go(new Map(given.slice(0, i))), "Change the answer about " + text(asks[ask].card.querySelector("h4"))))));
	soFar.hidden = again.hidden = !given.length;
	order.hidden = ask >= 0;
	if (ask >= 0) showAsk(ask, lefts);
	else [showEnd, showOrder].forEach((f) => f(lefts));
	mark(lefts);
	const all = chosen(lefts);
	status.textContent = (state.lost ? "Part of the address does not fit this release: answer again what is asked. " : "") +
		`${all.filter((l) => l.ask < 0).length} of ${all.length} places known.`;
	if (move && state !== before && document.activeElement !== pick) head.focus();
};
addEventListener("hashchange", () => show(true));
show(false);
})();
