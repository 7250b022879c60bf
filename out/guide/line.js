// Reads serial numbers and dates, and asks for them, where a guide has any. It is handed what
// the finder asks: of these the values are stretches. They are read by the rules of cells, as
// compiler/line does; what cannot be read is a text that says why.
"use strict";
globalThis.guideLine = ({ asks, el, copy, typed, tell }) => {
// What is said in English, in the language of the page (words.js): %s stands for what follows.
const said = (key) => globalThis.guideWords?.words[key]?.[0] ?? key;
const say = (key, ...args) => said(key).replace(/%(?:\[(\d+)\])?[sd]/g, (_, n) => (n ? args[n - 1] : args.shift()));
// The same with elements in the place of %s.
const around = (key, nodes) => key.split("%s").flatMap((text, i) => (i ? [...nodes, text] : [text]));
const dayOf = (year, month, day) => {
	const at = new Date(0);
	at.setUTCFullYear(year, month - 1, day);
	return year > 0 && at.getUTCMonth() === month - 1 && at.getUTCDate() === day ? at / 864e5 : NaN;
};
const iso = (day) => new Date(day * 864e5).toISOString().slice(0, 10);
const stretch = (from, to = from, letters = "") => ({ letters, from, to });
const monthOf = (year, month) => stretch(dayOf(year, month, 1), month < 12 ? dayOf(year, month + 1, 1) - 1 : dayOf(year, 12, 31));
const bare = (x) => x.normalize("NFD").replace(/\p{M}|\.$/gu, "").toLowerCase();
// Months by their names and short names, in English and in the language of the page.
const language = globalThis.guideWords?.language;
const namers = ["en", language ?? "en"].flatMap((l) => ["long", "short"].map((month) => new Intl.DateTimeFormat(l, { month, timeZone: "UTC" })));
const months = Array.from({ length: 12 }, (_, m) => namers.map((n) => bare(n.format(Date.UTC(2001, m)))));
const readSerial = (words) => {
	const [, letters, digits] = /^(\p{L}*)[\s\-\u2010-\u2015\u2212]*(\d+)$/u.exec(words) || [], number = digits?.replace(/^0+(?=.)/, "");
	if (!number || (!letters && digits !== words) || [...letters].length > 8 || number.length > 15) return say("“%s” is not a number as it is written here: letters, if it has any, and then digits.", words);
	return stretch(+number, +number, [...letters].map((c) => (c.toUpperCase().length > c.length ? c : c.toUpperCase())).join(""));
};
const readDate = (words) => {
	const parts = (form) => form.exec(words)?.slice(1).map((x) => (/\d/.test(x) ? +x : months.findIndex((names) => names.includes(bare(x))) + 1));
	const day = parts(/^(\d{4})-(\d\d)-(\d\d)$/), month = parts(/^(\d{4})-(\d\d)$/) || parts(/^(\d\d)[/](\d{4})$/)?.reverse() || parts(language ? /^(\p{L}+)\.?(?: de)? (\d{4})$/u : /^(\p{L}+) (\d{4})$/u)?.reverse();
	const either = parts(/^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$/), out = day ? stretch(dayOf(...day)) : month && monthOf(...month);
	if (out?.from === out?.from && out) return out;
	const loose = parts(/^(\d{1,2})[./-](\d{4})$/)?.reverse(), instead = loose && monthOf(...loose);
	if (instead?.from === instead?.from && instead) return say("“%s” is not a date as it is written here: write %s.", words, iso(instead.from).slice(0, 7));
	const [a, b, y] = either || [], may = either ? [dayOf(y, b, a), dayOf(y, a, b)].filter((d) => d === d).map(iso) : [];
	if (may.length > 1 && may[0] !== may[1]) return say("“%s” is %s to some and %s to others: write the one that is meant.", words, ...may);
	const write = may[0] || say("a month, such as 2009-03, 03/2009 or March 2009, or a day, such as 2009-03-15");
	return out ? say("“%s” is no date of the calendar: write %s.", words, write) : say("“%s” is not a date as it is written here: write %s.", words, write);
};
// A range stands with the word of the language, or with that of the workbooks.
const between = new RegExp(["%s to %s", said("%s to %s")].map((x) => `(?<=\\d)${x.split("%s")[1]}`).join("|"), "i");
const readRange = (line, words) => {
	const ends = words.replace(/\s+/g, " ").trim().split(between).map(line === "date" ? readDate : readSerial), wrong = ends.find((x) => typeof x === "string");
	const [first, last] = [ends[0], ends.at(-1)];
	if (!wrong && (ends.length > 2 || first.letters !== last.letters || last.to < first.from)) return say("“%s” is no range: write the first and the last, with the same letters and the lesser first.", words.trim());
	return wrong ?? { ...first, to: last.to };
};
const pointWords = ({ line }, letters, n) => (line === "date" ? iso(n) : letters + n);
const rangeWords = (a, { letters, from, to }) => {
	const [first, last] = [from, to].map((n) => pointWords(a, letters, n)), months = a.line === "date" && first.endsWith("-01") && iso(to + 1).endsWith("-01");
	const [b, e] = months ? [first.slice(0, 7), last.slice(0, 7)] : [first, last];
	return b === e ? b : `${b} to ${e}`;
};
// A range as people read it; rangeWords writes it as cells do, and as the address holds it.
const read = (words) => {
	const [from, to] = words.split(" to ");
	return to === undefined ? from : say("%s to %s", from, to);
};
// Stretches that follow on each other are said as one.
const joinedWords = (a, values) => values.filter((v) => v.at).reduce((out, { at }) => {
	const last = out.at(-1);
	if (last?.letters === at.letters && last.to + 1 === at.from) last.to = at.to;
	else out.push({ ...at });
	return out;
}, []).map((r) => read(rangeWords(a, r)));
const listed = (words, last) => words.map((w, i) => ["", ", ", ` ${last} `][i ? 1 + (i === words.length - 1) : 0] + w).join("");
const there = (a) => a.values.filter((v) => v.li && v.at);
const extent = (a) => listed(joinedWords(a, there(a)), say("or"));
const fold = (x) => x.normalize().toLowerCase().replace(/\s+/g, " ").trim();
for (const a of asks) if (a.line) for (const v of a.values) v.at = v.key === "n/a" ? null : readRange(a.line, v.key);

// Which stretch holds a number, a date or a range of them; none is guessed. The asked notes what
// was typed.
const settle = (ask, words) => {
	const a = asks[ask], date = a.line === "date", same = a.values.findIndex((v) => fold(v.key) === fold(words).replace(fold(say("does not apply")), "n/a").replace("does not apply", "n/a"));
	if (!words.trim()) return { error: date ? say("Write the date as it stands on the vehicle.") : say("Write the number as it stands on the vehicle.") };
	if (same >= 0) return { v: same };
	const r = readRange(a.line, words);
	if (typeof r === "string") return { error: r };
	const met = there(a).filter(({ at }) => at.letters === r.letters && at.from <= r.to && r.from <= at.to), as = rangeWords(a, r), last = met.at(-1);
	if (!last) return { error: say("%s is not within %s. Look again; if it is so, it is no vehicle of this guide: stop and ask.", read(as), extent(a)), outside: true };
	if (met.length > 1 || r.from < last.at.from || r.to > last.at.to) {
		const lies = met.length > 1 ? say("%s lies in %s.", read(as), listed(met.map((v) => read(v.key)), say("and in"))) : say("Only a part of %s lies in %s.", read(as), read(last.key));
		return { error: `${lies} ${date ? say("Give the day, such as %s.", iso(Math.max(r.from, last.at.from))) : say("Give the number itself.")}` };
	}
	const v = a.values.indexOf(last);
	a.typed = { v, as: as === last.key ? "" : as };
	return { v };
};

// The field. What is wrong with what is typed is told below it.
const letters = (a) => a.values.some((v) => v.at?.letters);
// Dates are not broken at their hyphens.
const whole = (words) => words.split(/(\d{4}(?:-\d\d)+)/).map((x, i) => (i % 2 ? el("span", { className: "day" }, x) : x));
const input = (ask, id, ...hints) => {
	const error = el("span", { id: id + "no", className: "lost", role: "status" }), digits = asks[ask].line === "serial" && !letters(asks[ask]);
	const field = el("input", { id, type: "text", autocomplete: "off", spellcheck: false, inputMode: digits ? "numeric" : "text" });
	field.setAttribute("aria-describedby", [...hints, error.id].join(" "));
	const fault = (words = "") => {
		error.replaceChildren(...whole(words));
		if (words) field.setAttribute("aria-invalid", "true");
		else field.removeAttribute("aria-invalid");
	};
	const take = () => {
		const { v, error } = settle(ask, field.value);
		fault(error);
		if (error) field.focus();
		else tell(ask, v);
	};
	return { field, error, fault, take };
};
return {
	settle,
	// Several stretches in words.
	say: (ask, values) => {
		const all = values.map((v) => asks[ask].values[v]);
		return listed([...joinedWords(asks[ask], all), ...all.filter((v) => !v.at).map(() => say("does not apply"))], say("or"));
	},
	// The field of a question.
	field: (ask) => {
		const a = asks[ask], { field, error, take } = input(ask, "type", "as");
		const hint = a.line === "date" ? say("Write the month, such as 2009-03, 03/2009 or March 2009, or the day, such as 2009-03-15.")
			: letters(a) ? say("Small letters, leading zeros, and spaces and hyphens before the digits make no difference.") : say("Leading zeros make no difference.");
		return el("form", { className: "type", noValidate: true, onsubmit: (e) => {
			e.preventDefault();
			take();
		} }, el("label", { htmlFor: field.id }, ...around(said("%s, as it stands on the vehicle"), copy(a.name))),
		el("span", { className: "go" }, field, el("button", { type: "submit" }, say("Go on"))), el("p", { id: "as", className: "hint" }, ...whole(`${extent(a)}. ${hint}`)), error);
	},
	// The field of what is known already, and how it is shown anew.
	known: (ask) => {
		const { values, name } = asks[ask], { field, error, fault, take } = input(ask, "known" + ask);
		field.onchange = () => (field.value.trim() ? take() : tell(ask));
		return { ask, row: el("p", {}, el("label", { htmlFor: field.id }, ...copy(name)), field, error), show: (v, may) => {
			field.value = v >= 0 ? typed(ask, v) || values[v].key : "";
			field.placeholder = v < 0 ? say("cannot be told") : may.length === 1 ? say("so: %s", read(values[may[0]].key)) : say("not known");
			fault();
		} };
	},
};
};
