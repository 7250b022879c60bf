// Takes what is known of a vehicle, asks for the rest one question at a time, and lists its
// parts; of a vehicle that does not exist it says so. All that it knows stands in the page;
// the address holds the answers. compiler/judge/identify/walk says what is asked next.
"use strict";
(() => {
const root = document.getElementById("find");
const list = root && root.querySelector(".steps");
if (!list || !root.dataset.exist) return;

const el = (tag, props, ...children) => {
	const out = Object.assign(document.createElement(tag), props);
	out.append(...children);
	return out;
};
const button = (label, onclick, ariaLabel = null) => el("button", { type: "button", onclick, ariaLabel }, label);
const copy = (nodes) => [...nodes].map((n) => n.cloneNode(true));
const find = (node, what) => [...node.querySelectorAll(what)];
const squeezed = (words) => words.replace(/\s+/g, " ").trim();
const text = (node) => squeezed(node.textContent);
// What something is called in the workbook, and so in an address: data-key where the page shows another text.
const keyOf = (node) => squeezed(node.dataset.key ?? node.textContent);

// What is said in English, in the language of the page (words.js): %s and %d stand for what follows. put
// gives it in pieces, for elements in their place.
const spoken = globalThis.guideWords, forms = (key) => spoken?.words[key] ?? [key];
const fill = (words, args) => words.split(/%(?:\[(\d+)\])?[sd]/).flatMap((x, i) => (i % 2 ? args[(x ?? (i + 1) / 2) - 1] : x));
const put = (key, ...args) => fill(forms(key)[0], args);
const say = (key, ...args) => put(key, ...args).join("");
const count = (n, one, other, ...args) => {
	const [many, single = many] = forms(other), [is, are] = spoken ? [single, many] : [one, other];
	return fill((spoken ? new Intl.PluralRules(spoken.language).select(n) === "one" : n === 1) ? is : are, [n, ...args]).join("");
};

// What the page holds. A set is a number with a bit for each member.
const bit = (i) => 1n << BigInt(i);
const set = (runs) => runs.split(",").reduce((out, run) => {
	const [lo, hi = lo] = run.split("-");
	for (let i = +lo; i <= +hi; i++) out |= bit(i);
	return out;
}, 0n);
const asks = find(root, "[data-ask]").sort((a, b) => a.dataset.ask - b.dataset.ask).map((card) => {
	const head = card.querySelector("h4, span"), values = find(card, ".values > li, :scope > b").map((li) => {
		const label = li.matches("b") ? li : li.firstElementChild;
		return { li, name: label.childNodes, key: "absent" in li.dataset ? "n/a" : keyOf(label), lack: li.dataset.absent };
	});
	return { card, id: "#" + head.id, name: head.childNodes, key: head.id === "years" ? "Years" : keyOf(head), effort: +(card.dataset.effort || 0), line: globalThis.guideLine && card.dataset.line, values, all: bit(values.length) - 1n };
});
const boxes = (words) => words.split(";").map((box) => {
	const terms = Object.fromEntries(box.split(" ").map((term) => term.split("=")));
	return asks.map((a, i) => (terms[i] ? set(terms[i]) : a.all));
});
const exist = boxes(root.dataset.exist);
// Ends are the same where their lines say the same: a text has one number, quick to compare.
const numbers = new Map();
const number = (text) => numbers.get(text) ?? (numbers.set(text, numbers.size), numbers.size - 1);
const end = (at) => {
	const links = find(at, "a").filter((a) => /^#r\d/.test(a.hash));
	const rows = links.map((a) => document.getElementById(a.hash.slice(1)));
	const hidden = at.querySelector(".hid");
	const cell = hidden || (rows[0] || at).lastElementChild || at;
	const kind = hidden ? "hidden" : rows.length ? rows[0].className || "fitted" : "absent";
	const says = cell.cloneNode(rows.length || hidden);
	says.querySelectorAll(".ruled").forEach((n) => n.remove());
	return { ask: -1, kind, rows, cell, key: number(kind + says.innerHTML), brief: hidden ? say("not to be told by looking") : links.length ? text(links[0]) : say("no such place") };
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
	const name = home.querySelector("h3 span");
	return {
		n: i + 1, home, name: name.childNodes, key: keyOf(name), tree: details && tree(details),
		state: details && (find(details, ".state")[0] ?? details.firstChild.appendChild(el("span", { className: "state" }))),
		spots: root.querySelectorAll(`.spot[data-n="${i + 1}"]`),
	};
});

// What is left to find out, and what to ask next. The answer -1 is that nobody can tell.
let state = { answers: new Map(), place: -1 };
const among = (boxes, ask, values) => boxes.filter((b) => b[ask] & values);
const boxesOf = (answers) => [...answers].reduce((boxes, [ask, v]) => (v < 0 ? boxes : among(boxes, ask, bit(v))), exist);
const without = (answers, ...drop) => new Map([...answers].filter(([ask]) => !drop.includes(ask)));
const ends = (l) => (l.next ? [...new Set(l.next.flatMap(ends))] : l.ends);
const reduce = (t, boxes, answers, seen) => {
	const one = (l) => seen.get(l.key) || (seen.set(l.key, l), l);
	if (t.ask < 0) {
		const l = one({ key: t.key, ask: -1, asks: 0n, ends: [] });
		if (!l.ends.includes(t)) l.ends.push(t);
		return l;
	}
	const v = answers.get(t.ask) ?? -1, next = [];
	let key = "" + t.ask;
	for (const way of t.ways) {
		const values = v < 0 ? way.values : way.values & bit(v), inside = among(boxes, t.ask, values);
		if (!values || !inside.length) continue;
		next.push(reduce(way.next, inside, answers, seen));
		key += `(${values}:${next.at(-1).key})`;
	}
	if (!next.length) return one({ key: number(""), ask: -1, asks: 0n, ends: [] });
	if (next.every((l) => l === next[0])) return next[0];
	return one({ key: number(key), ask: t.ask, next, asks: next.reduce((s, l) => s | l.asks, bit(t.ask)) });
};
const look = (answers) => {
	const boxes = boxesOf(answers);
	return places.map((p, at) => p.tree && Object.assign(reduce(p.tree, boxes, answers, new Map()), { at }));
};
const chosen = (lefts) => lefts.filter((l, i) => l && (state.place < 0 || state.place === i));
const due = (l) => (l.ask < 0 ? 0n : state.answers.has(l.ask) ? l.next.reduce((s, n) => s | due(n), 0n) : bit(l.ask));
const valuesIn = (boxes, ask) => boxes.reduce((s, b) => s | b[ask], 0n);
const members = (ask, values) => [...asks[ask].values.keys()].filter((v) => values & bit(v));
const possible = (ask, answers = state.answers) => members(ask, valuesIn(boxesOf(without(answers, ask)), ask));
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

// A vehicle that does not exist: which answers no vehicle has together, and the fewest that
// would have to be others, box by box.
const clash = (answers) => {
	const told = [...answers.keys()].filter((ask) => answers.get(ask) >= 0).sort((a, b) => yearFirst(b, a));
	let core = new Map(told.map((ask) => [ask, answers.get(ask)]));
	for (const ask of told) if (!boxesOf(without(core, ask)).length) core = without(core, ask);
	const others = exist.map((b) => told.filter((ask) => !(b[ask] & bit(answers.get(ask))))), least = Math.min(...others.map((o) => o.length));
	return { core, near: others.filter((o, i) => o.length === least && others.findIndex((x) => "" + x === "" + o) === i) };
};

// The address. No value of a workbook is called any or n/a, and no trait Position.
// A number or a date stands there as it was typed.
const typed = (ask, v) => (asks[ask].typed?.v === v ? asks[ask].typed.as : "");
const fold = (x) => x.normalize().toLowerCase().replace(/\s+/g, " ").trim();
// What people call it besides.
const also = JSON.parse(root.dataset.also || "{}");
const squeeze = (x) => fold(x).replace(/(\d)[\s-]+(?=\d)|[\s-]+/g, (_, d) => (d ? d + "-" : ""));
const meant = (name, all) => [(x) => fold(x[0]) === name, ...[fold, squeeze].map((as) => (x) => x.some((y) => as(y) === as(name)))]
	.map((same) => [...all.keys()].filter((i) => same(all[i]))).find((found) => found.length) || [];
const label = (name) => (name.length === 1 && name[0].nodeType === 3 ? name[0].data : [...name].map((n) => n.textContent).join(""));
const askNames = asks.map((a, i) => [a.key, ...(a.key === "Years" ? ["Year", "Model year", "Model years"] : []), label(a.name), ...also[i] || []]);
const placeCalled = (is) => [(p) => p.key, (p) => label(p.name)].map((of) => places.findIndex((p) => p.tree && fold(of(p)) === is)).find((i) => i >= 0) ?? -1;
// besides is what is kept as it stands: what the address told and this guide does not know.
const written = (answers, place, besides = []) => {
	const q = new URLSearchParams();
	if (place >= 0) q.set("Position", places[place].key);
	for (const [ask, v] of answers) q.set(asks[ask].key, v < 0 ? "any" : typed(ask, v) || asks[ask].values[v].key);
	for (const [key, value] of besides) q.append(key, value);
	return "?" + q;
};
const go = (answers, place = state.place) => { location.hash = written(answers, place); };
// The page in another language takes over what is answered.
const carry = () => find(document, "a[data-language]").forEach((a) => {
	a.hash = state.answers.size || state.place >= 0 || state.besides?.length ? written(state.answers, state.place, state.besides) : location.hash;
});
const read = () => {
	if (location.hash && !location.hash.startsWith("#?")) return state; // elsewhere on the page
	const out = { answers: new Map(), place: -1, lost: [], besides: [] };
	for (const a of asks) a.typed = null;
	for (const [key, value] of new URLSearchParams(location.hash.slice(2))) {
		const name = fold(key), is = fold(value).replace("does not apply", "n/a");
		const called = meant(name, askNames), ask = called.length === 1 ? called[0] : -1, place = placeCalled(is), lose = (words) => out.besides.push([key, value]) && out.lost.push(words);
		const got = asks[ask]?.line && is !== "any" ? line.settle(ask, value) : {};
		const which = ask < 0 || is === "any" ? [] : meant(is, asks[ask].values.map((x, v) => [x.key, label(x.name), ...also[`${ask}.${v}`] || []]));
		const could = called.length > 1 ? called.map((i) => asks[i].key) : which.map((v) => asks[ask].values[v].key);
		let v = got.v ?? which[0] ?? -1;
		if (name === "position" && place >= 0) out.place = place;
		else if (name === "platform" && meant(is, [[text(document.querySelector("h1 bdi")), ...also[""] || []]]).length) continue;
		else if (could.length > 1) lose(say("%s: %s (may be %s)", key, value, could.join(` ${say("or")} `)));
		else if (ask < 0 || !is || out.answers.has(ask)) lose(say("%s: %s", key, value));
		else if (got.error && !got.outside) lose(say("%s: %s (%s)", key, value, got.error));
		else {
			// What no vehicle here has is a value all the same: one that no box holds.
			if (v < 0 && is !== "any") v = asks[ask].values.push({ name: [new Text(value)], key: value }) - 1;
			out.answers.set(ask, v);
		}
	}
	return out;
};

// What is shown.
const sayPlace = (p) => [el("b", { className: "n" }, p.n), " ", ...copy(p.name)];
const names = (all, and = say("and")) => all.flatMap((x, i) => [["", ", ", ` ${and} `][i ? 1 + (i === all.length - 1) : 0], ...copy(x.name)]);
const why = (l) => names(asks.filter((_, i) => l.asks & bit(i)));
// Values in words: years as ranges, and 'does not apply' in lower case within a sentence.
const inWords = (ask, values) => {
	const all = asks[ask].values;
	if (asks[ask].line && values.every((v) => all[v].li)) return [line.say(ask, values)];
	if (asks[ask].key !== "Years" || values.some((v) => !all[v].li)) return names(values.map((v) => (label(all[v].name) === say("Does not apply") ? { name: [new Text(say("does not apply"))] } : all[v])), say("or"));
	const years = values.map((v) => +all[v].key), from = years.filter((y) => !years.includes(y - 1)), to = years.filter((y) => !years.includes(y + 1));
	return [from.map((y, i) => (to[i] > y ? say("%s to %s", y, to[i]).replaceAll(" ", "\u00a0") : "" + y)).join(", ")];
};
const called = (ask) => (asks[ask].key === "Years" ? [say("model year")] : copy(asks[ask].name));
const is = (ask, values) => {
	const words = el("b", {}, ...inWords(ask, values));
	return asks[ask].key === "Years" ? [words] : put("%s %s", called(ask), words);
};
// What is said of vehicles that do not have it, where all that are left do not.
const lack = (ask, values) => values.length === 1 && asks[ask].values[values[0]].lack;
const pick = el("select", { id: "pick", onchange: () => go(state.answers, +pick.value) }, el("option", { value: -1 }, say("all places")),
	...places.flatMap((p, i) => (p.tree ? el("option", { value: i }, `${p.n} ${label(p.name)}`) : [])));
const head = el("h3", { tabIndex: -1 }), body = el("div", { className: "now" }), soFar = el("ol", { className: "sofar" }), so = el("p", { className: "then" }), lost = el("p", { className: "lost" });
const again = button(say("Start again"), () => go(new Map()));
const status = el("p", { role: "status" });
let wanted = -1; // a question to be asked once more
const change = (ask) => {
	wanted = asks[ask].card.matches(".question") ? ask : -1;
	go(without(state.answers, ask));
};

// What is known already, in any order. What no vehicle with the other answers has can be
// told all the same: somebody may be looking at it.
const yearFirst = (a, b) => (asks[b].key === "Years") - (asks[a].key === "Years");
// Numbers and dates are read and asked for by line.js.
const line = globalThis.guideLine?.({ asks, el, copy, typed, tell: (ask, v) => go(v === undefined ? without(state.answers, ask) : new Map(state.answers).set(ask, v)) });
const facts = [...asks.keys()].sort(yearFirst).flatMap((ask) => {
	const a = asks[ask];
	if (a.values.length < 2) return [];
	if (a.line) return line.known(ask);
	const select = el("select", { id: "known" + ask, onchange: () => go(select.value === "" ? without(state.answers, ask) : new Map(state.answers).set(ask, +select.value)) });
	return { ask, select, row: el("p", {}, el("label", { htmlFor: select.id }, ...copy(a.name)), select) };
});
const known = el("details", { className: "known" }, el("summary", {}, say("What do you know already?")), el("div", {}, ...facts.map((f) => f.row)));
const showFacts = () => facts.forEach(({ ask, select, show }) => {
	const { values } = asks[ask], v = state.answers.get(ask), may = possible(ask);
	if (show) return show(v, may);
	const option = (v) => el("option", { value: v }, values[v].li ? label(values[v].name) : values[v].key);
	const never = [...values.keys()].filter((x) => !may.includes(x) && (values[x].li || x === v));
	select.replaceChildren(el("option", { value: "" }, may.length === 1 ? say("so: %s", lack(ask, may) || label(values[may[0]].name)) : say("not known")), ...(v < 0 ? [el("option", { value: -1 }, say("cannot be told"))] : []), ...may.map(option),
		...(never.length ? [el("optgroup", { label: say("On none with the other answers") }, ...never.map(option))] : []));
	select.value = v ?? "";
});
const one = el("div", { className: "one" }, lost, known, el("p", { className: "pick" }, el("label", { htmlFor: "pick" }, say("Find the part for")), " ", pick),
	head, so, body, soFar, again, status), early = root.querySelector(".early");
if (early) early.replaceWith(one);
else root.insertBefore(one, root.querySelector(".by"));
const order = el("section", { className: "order", ariaLabel: say("Parts to order"), id: "order" });
document.querySelector(".usual").before(order);

// What follows from the answers: the years, and what is left of traits that were not told;
// before all is asked, only those of which one value is left.
const implied = (asking) => {
	const left = boxesOf(state.answers), out = asks.flatMap((a, ask) => {
		const values = valuesIn(left, ask);
		return state.answers.get(ask) >= 0 || values === valuesIn(exist, ask) ? [] : [{ ask, values: members(ask, values) }];
	});
	const rank = ({ ask, values }) => (asks[ask].key === "Years" ? 0 : values.length > 1 ? 2 : 1);
	return out.filter((x) => !asking || rank(x) < 2).sort((a, b) => rank(a) - rank(b)).map(({ ask, values }) => el("span", {}, ...(lack(ask, values) ? put("%s: %s", called(ask), el("b", {}, lack(ask, values))) : is(ask, values))));
};
const joined = (all) => all.flatMap((x, i) => (i ? [say("; "), x] : [x]));
const showSo = (all) => {
	so.hidden = !all.length;
	so.replaceChildren(...put("Then it is %s: check that.", joined(all)), " ", button(say("Not so?"), () => {
		known.open = true;
		known.firstChild.focus();
	}, say("Not so? Say what you know")));
};

// An answer with its hints, which are read with the button.
const hinted = (button, id, hints) => {
	hints.forEach((n, i) => { n.id = `${id}-${i}`; });
	if (hints.length) button.setAttribute("aria-describedby", hints.map((n) => n.id).join(" "));
	return el("li", {}, button, ...hints);
};
const showAsk = (ask, lefts) => {
	const { card, name, values } = asks[ask], may = possible(ask), others = [...values.keys()].filter((v) => values[v].li && !may.includes(v));
	const decides = places.filter((_, i) => lefts[i] && lefts[i].asks & bit(ask));
	const answer = (v, ...label) => button("", () => go(new Map(state.answers).set(ask, v))).appendChild(el("span", {}, ...label)).parentNode;
	const open = decides.length;
	head.replaceChildren(...put("Question %d: %s", state.answers.size + 1, copy(name)));
	body.replaceChildren(...copy(card.querySelectorAll(":scope > :not(h4, ul, .why)")), ...(asks[ask].line ? [line.field(ask)] : []),
		el("ul", { className: card.querySelector("ul").className }, ...may.filter((v) => !values[v].at).map((v) => {
			const [name, ...rest] = copy(values[v].li.childNodes), hints = rest.filter((n) => n.nodeType === 1 && !n.matches(".nb"));
			return hinted(answer(v, ...name.childNodes, ...rest.filter((n) => !hints.includes(n))), "hint" + v, hints);
		}), hinted(answer(-1, say("I cannot tell")), "hint", [el("p", {}, count(open, "1 of the places then stays open.", "Up to %d of the places then stay open."))])),
		...(decides.length ? [el("p", { className: "why" }, ...put("It decides: %s.", names(decides)))] : []),
		asks[ask].line ? "" : others.length ? el("details", {}, el("summary", {}, say("None of these?")), el("p", {}, say("Is it this?"), " ", ...others.flatMap((v) => [answer(v, ...copy(values[v].name)), " "])),
			el("p", {}, say("If not, an answer is wrong, or it is no vehicle of this guide: stop and ask."))) : el("p", {}, say("None of these? Then an answer is wrong, or it is no vehicle of this guide: stop and ask.")));
};
// Why there is no such vehicle, and which come nearest.
const showMiss = () => {
	const { core, near } = clash(state.answers), told = [...core.keys()], year = told.find((ask) => asks[ask].key === "Years"), traits = told.filter((ask) => ask !== year);
	const name = () => copy((root.closest("main, .fitment") ?? document).querySelectorAll("h1 bdi")), now = (ask) => [state.answers.get(ask)], last = traits.pop();
	const of = year !== undefined && [el("b", {}, ...inWords(year, now(year)))], besides = traits.flatMap((ask, i) => [i ? ` ${say("and")} ` : "", ...is(ask, now(ask))]);
	const has = last !== undefined && is(last, now(last)), have = inWords(year ?? last, possible(year ?? last, core));
	const instead = (ask, answers) => put("%s instead of %s", is(ask, possible(ask, answers)), inWords(ask, now(ask)));
	const take = (drop) => {
		const rest = without(state.answers, ...drop);
		return el("li", {}, button("", () => go(drop.reduce((to, ask) => {
			const may = possible(ask, rest);
			return may.length === 1 ? to.set(ask, may[0]) : to;
		}, rest))).appendChild(el("span", {}, ...drop.map((ask) => instead(ask, rest)).reduce((all, x) => put("%s, and %s", all, x)))).parentNode);
	};
	head.replaceChildren(say("No such vehicle"));
	body.replaceChildren(el("p", { className: "say" }, ...(!has ? put("No %s of %s is listed; there are %s.", name(), of, have)
		: of ? (besides.length ? put("No %s of %s with %s has %s; %s have.", name(), of, besides, has, have) : put("No %s of %s has %s; %s have.", name(), of, has, have))
			: besides.length ? put("No %s with %s has %s; those have %s.", name(), besides, has, have) : put("No %s has %s; those have %s.", name(), has, have))),
	el("p", {}, count(near.length, "The nearest that exists has", "The nearest that exist have")), el("ul", { className: "near" }, ...near.map(take)),
	el("p", {}, say("If all of your answers are true, it is no vehicle of this guide: order nothing, and ask.")));
};
const endOf = (l) => l && l.ask < 0 && l.ends[0];
const showEnd = (lefts) => {
	const open = chosen(lefts).filter((l) => l.ask >= 0), p = places[state.place], e = p && !open.length && endOf(lefts[state.place]);
	head.replaceChildren(...(open.length ? [say("As far as the answers go")] : p ? sayPlace(p) : [say("Your vehicle is known")]));
	body.replaceChildren(...(e ? [...copy(e.cell.childNodes).filter((n) => !n.matches?.(".ruled")), ...rulesOf([{ e }])] : []), el("p", {}, open.length ? count(open.length, "%d open: order nothing for it before it is settled.", "%d open: order nothing for them before they are settled.") : "", el("a", { href: "#order", className: "answer" }, say("See the list of parts")),
		say("The address of this page holds the answers: pass it on.")));
};
const possibleEnds = (n) => count(n, "%d possible", "%d possible");
const mark = (lefts) => places.forEach((p, i) => {
	const l = lefts[i], e = endOf(l), begun = lefts.length && state.answers.size > 0, may = l ? ends(l) : [];
	if (p.state) p.state.textContent = e ? e.brief : begun ? possibleEnds(new Set(may.map((x) => x.key)).size) : "";
	const kind = !e ? "" : e.kind === "fitted" ? " known" : ["absent", "none", "with"].includes(e.kind) ? " none" : " ask";
	for (const s of p.spots) s.setAttribute("class", "spot" + kind + (state.place === i ? " chosen" : ""));
	const rows = l && begun && new Set(may.flatMap((x) => x.rows));
	for (const row of p.home.querySelectorAll(".fits tbody tr")) {
		row.classList.toggle("mine", !!e && rows && rows.has(row));
		row.classList.toggle("not", !!rows && !rows.has(row));
	}
});

// The list of parts.
const cell = (className, label, ...children) => {
	const td = el("td", { className }, ...children);
	td.dataset.l = label;
	return td;
};
// What a phone shows when asked, and paper always; :has in the style sheet does it.
const opener = (what, label = null) => el("details", { className: "fold" }, el("summary", { ariaLabel: label }, what));
const choicesOf = ({ e }) => e.cell.querySelectorAll(":scope > div:not(.kit)");
const orderRows = (several) => ({ p, e }) => {
	const choices = choicesOf({ e });
	const rows = [...(choices.length ? choices : [e.cell])].flatMap((choice, i) => {
		const items = choice.querySelectorAll(":scope > .items > li");
		return [...(items.length ? items : [choice])].map((item, j) => {
			const part = item.cloneNode(true), count = part.querySelector("b");
			part.querySelectorAll(":scope > i, :scope > .cautions, :scope > .ruled").forEach((n) => n.remove());
			count?.remove();
			const [number, ...rest] = [...part.childNodes].filter((n) => n.nodeType === 1 || n.data.trim()), status = rest.find((n) => n.matches?.(".status"));
			return el("tr", {}, ...(several ? [cell("choice", say("Choice"), j ? say("and") : i ? say("or") : choices.length ? say("first choice") : "")] : []), cell("count", say("Quantity"), count ? parseInt(count.textContent) : ""),
				cell("what", say("Part"), number, status ? " " : "", status || "", opener("", say("More about %s", text(number))), el("div", { className: "rest" }, ...rest.filter((n) => n !== status))));
		});
	});
	const where = p.home.querySelector(".pos");
	rows[0].prepend(el("th", { scope: "rowgroup", rowSpan: rows.length }, ...sayPlace(p), where ? el("span", { className: "pos" }, ...copy(where.childNodes)) : ""));
	return el("tbody", {}, ...rows);
};
const cautionsOf = (found) => {
	const by = new Map();
	for (const { p, e } of found)
		for (const c of [...e.cell.querySelectorAll(".caution"), ...p.home.querySelectorAll(".cautions:not(table *) > .caution")])
			by.set(text(c), { c, ps: [...(by.get(text(c))?.ps || []), p.n] });
	let folded = false;
	const rank = ({ c }) => "caution danger, caution warning, caution notice, caution note".indexOf(c.className);
	return [...by.values()].sort((a, b) => rank(a) - rank(b)).map(({ c, ps }) => {
		const out = c.cloneNode(true);
		out.lastElementChild.prepend(el("b", {}, say("%s:", ps.join(", ")) + " "));
		if (folded || rank({ c }) < 2) return [out];
		folded = true;
		return [el("li", { className: "more" }, opener(say("Notices and notes"))), out];
	}).flat();
};
// The rules about what is offered that hold for a vehicle that it may be; those that hold for
// all that it may be stand without their condition.
const rulesOf = (found) => {
	const table = document.querySelector(".rules")?.cloneNode(true), about = new Set(found.flatMap(({ e }) => (e.cell.dataset.rules || "").split(" ")));
	const left = boxesOf(state.answers).map((b) => b.map((values, ask) => (state.answers.get(ask) >= 0 ? bit(state.answers.get(ask)) : values)));
	for (const row of table ? [...table.tBodies[0].rows] : []) {
		const where = row.dataset.in ? boxes(row.dataset.in) : [asks.map((a) => a.all)], inside = (b, c) => b.every((values, i) => !(values & ~c[i]));
		if (!about.has(row.id.slice(4)) || !left.some((b) => where.some((r) => b.every((values, i) => values & r[i])))) row.remove();
		else if (where.some((r) => left.every((b) => inside(b, r)))) Object.assign(row.cells[2], { className: "yours", textContent: say("yours") });
		row.removeAttribute("id");
	}
	return table?.tBodies[0].rows.length ? [el("h3", {}, say("Rules for these parts")), table] : [];
};
const section = (title, all, says) => (all.length ? [el("h3", {}, title), el("ul", {}, ...all.map((x) => el("li", {}, ...put("%s: %s", sayPlace(x.p), says(x)))))] : []);
const print = () => {
	const page = root.closest("main, .fitment");
	page.classList.add("only-list");
	window.print();
	page.classList.remove("only-list");
};
const showOrder = (lefts) => {
	const all = places.map((p, i) => ({ p, l: lefts[i], e: endOf(lefts[i]) })).filter(({ p }) => state.place < 0 || places[state.place] === p);
	const of = (...kinds) => all.filter(({ e }) => e && kinds.includes(e.kind)), found = of("fitted"), nothing = of("with", "none");
	const release = document.querySelector(".release"), cautions = cautionsOf(found);
	const several = found.some((x) => choicesOf(x).length);
	const name = copy((root.closest("main, .fitment") ?? document).querySelectorAll("h1 bdi")), today = el("span", { className: "nb" }, new Date().toLocaleDateString(spoken?.language ?? "sv", spoken && { dateStyle: "long" }));
	order.replaceChildren(el("h2", {}, say("Parts to order")),
		el("p", {}, ...(release ? put("%s, %s, printed on %s", name, text(release), today) : put("%s, printed on %s", name, today))),
		button(say("Print this list"), print), opener(say("Your answers")), el("ul", { className: "sofar" }, ...copy(soFar.children)), ...(so.hidden ? [] : [el("p", { className: "then" }, ...copy(so.childNodes))]),
		found.length ? el("table", { className: "cases parts-list" }, el("caption", {}, say("Parts to order")),
			el("thead", {}, el("tr", {}, ...[say("Place"), ...(several ? [say("Choice")] : []), say("Quantity"), say("Part")].map((x) => el("th", { scope: "col" }, x)))), ...found.map(orderRows(several))) : "",
		...section(say("Settle these first"), all.filter((x) => !found.includes(x) && !nothing.includes(x) && x.e?.kind !== "absent"), ({ l, e }) => (e ? copy(e.cell.childNodes) : l ? put("depends on %s: %s", why(l), [...new Set(ends(l).map((x) => x.brief))].reduce((all, x) => say("%s; or %s", all, x))) : [say("read its table")])),
		...section(say("Nothing to order"), nothing, ({ e }) => copy(e.cell.childNodes)),
		...(cautions.length ? [el("h3", {}, say("Cautions and notes, by place")), el("ul", { className: "cautions" }, ...cautions)] : []),
		...rulesOf(found));
	order.querySelectorAll(".sofar button, .then button").forEach((b) => b.remove());
};

// What is known now, and what the last answer did.
let settled = new Set();
const told = (all, moved) => {
	const now = new Set(all.filter((l) => l.ask < 0 && ["fitted", "with", "none", "absent"].includes(l.ends[0]?.kind)).map((l) => l.at)), newly = [...now].filter((i) => !settled.has(i));
	const ask = all.filter((l) => l.ask < 0).length - now.size, of = now.size;
	settled = now;
	const known = ask ? count(of, "%d of %d places known; ask about %d.", "%d of %d places known; ask about %d.", all.length, ask) : count(of, "%d of %d places known.", "%d of %d places known.", all.length);
	if (!moved) return known;
	return `${known} ${newly.length ? say("Settled now: %s.", newly.map((i) => label(places[i].name)).join(", ")) : say("No further place is settled yet.")}`;
};
const show = (move) => {
	const before = state;
	state = read();
	carry();
	const none = !boxesOf(state.answers).length, lefts = none ? [] : look(state.answers), given = [...state.answers];
	const ask = none ? -1 : wanted >= 0 && !state.answers.has(wanted) ? wanted : nextAsk(lefts);
	wanted = -1;
	pick.value = state.place;
	soFar.replaceChildren(...given.map(([ask, v]) => el("li", {}, el("span", {}, ...put("%s: %s", copy(asks[ask].name), el("b", {}, ...(v < 0 ? [say("cannot be told")] : typed(ask, v) ? put("%s: %s", typed(ask, v), copy(asks[ask].values[v].name)) : copy(asks[ask].values[v].name))))), " ",
		button(say("Change"), () => change(ask), say("Change the answer about %s", label(asks[ask].name))))));
	soFar.hidden = again.hidden = !given.length;
	lost.hidden = !state.lost?.length;
	lost.textContent = say("This guide does not know what the address says here, so it is left out: %s.", state.lost?.join(say("; ")));
	order.hidden = ask >= 0 || none;
	showFacts();
	showSo(none ? [] : implied(ask >= 0));
	if (none) showMiss();
	else if (ask >= 0) showAsk(ask, lefts);
	else [showEnd, showOrder].forEach((f) => f(lefts));
	mark(lefts);
	const all = chosen(lefts);
	status.textContent = none ? say("No such vehicle.") : told(all, move && state !== before);
	const left = boxesOf(state.answers).map((b) => b.map((values, ask) => (state.answers.get(ask) >= 0 ? bit(state.answers.get(ask)) : values)));
	globalThis.guideFinder = { el, button, copy, boxes, places, lefts, endOf, go, order, body, none, left, done: ask < 0 && !none, all: asks.map((a) => a.all), answers: state.answers };
	document.dispatchEvent(new Event("answered"));
	if (none) known.open = false;
	if (move && state !== before && (none || !document.activeElement?.matches("select, .known input"))) head.focus();
};
addEventListener("hashchange", () => {
	one.classList.remove("told");
	show(true);
});
// What is below stays out of sight while a page with answers in its address is loaded.
one.classList.toggle("told", location.hash.startsWith("#?"));
show(false);
// What is scrolled in the frame in which it is laid out counts as moved, so it comes a frame later.
if (location.hash.startsWith("#?")) requestAnimationFrame(() => requestAnimationFrame(() => one.scrollIntoView()));
})();
