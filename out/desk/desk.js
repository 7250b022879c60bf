// Keeps the view that is open as the sheets are. One stream a browser tells of changes, whichever
// of its tabs holds it: a browser opens six streams to a server and no more.
"use strict";

const channel = new BroadcastChannel("ferrule-desk" + location.pathname.replace(/[^/]*$/, ""));
let shown = Number(document.body.dataset.version);
let latest = shown;
let busy = false;

// place remembers what the reader looks at: the first finding in sight, and where it is.
function place() {
	for (const el of document.querySelectorAll("main [id]")) {
		const box = el.getBoundingClientRect();
		if (box.bottom > 60 && box.height) return { id: el.id, top: box.top };
	}
	return null;
}

function find(root, id) {
	return id ? root.querySelector("#" + CSS.escape(id)) : null;
}

// within says where an element without a name stands: which of its kind in what has one.
function within(el) {
	const owner = el.closest("[id]"), tag = el.localName;
	return { owner: owner.id, tag, nth: [...owner.querySelectorAll(tag)].indexOf(el) };
}

// swap puts the new view in the place of the old one, and keeps what is open, written and focused.
function swap(page) {
	const old = document.getElementById("main"), now = page.getElementById("main");
	const at = place(), focus = document.activeElement;
	const path = focus && old.contains(focus) ? { id: focus.id, name: focus.name, value: focus.type === "checkbox" ? focus.value : null, href: focus.getAttribute("href"), ...within(focus) } : null;
	const had = new Set([...old.querySelectorAll(".finding")].map(el => el.id));
	for (const d of old.querySelectorAll("details")) {
		const owner = d.id ? d : d.closest("[id]");
		const same = d.id ? find(now, d.id) : owner && find(now, owner.id)?.querySelector("details");
		if (same) same.open = d.open;
	}
	for (const field of old.querySelectorAll("input, select, textarea")) {
		const name = `[name="${CSS.escape(field.name)}"]`, tick = field.type === "checkbox";
		if (!field.name || field.type === "hidden") continue;
		const same = now.querySelector(tick ? `${name}[value="${CSS.escape(field.value)}"]` : name);
		if (same && tick) same.checked = field.checked;
		else if (same) same.value = field.value;
	}
	let came = 0;
	for (const el of now.querySelectorAll(".finding")) {
		if (had.size && !had.has(el.id)) { el.classList.add("came"); came++; }
	}
	old.replaceChildren(...now.childNodes);
	dress(old);
	if (path) {
		const same = find(old, path.id) || (path.name && old.querySelector(`[name="${CSS.escape(path.name)}"]` + (path.value === null ? "" : `[value="${CSS.escape(path.value)}"]`))) ||
			(path.href && old.querySelector(`a[href="${CSS.escape(path.href)}"]`)) ||
			find(old, path.owner)?.querySelectorAll(path.tag)[path.nth] || find(old, path.owner)?.querySelector("summary, a, button");
		(same || old).focus({ preventScroll: true });
	}
	const same = at && find(old, at.id);
	if (same) scrollBy(0, same.getBoundingClientRect().top - at.top);
	return came;
}

async function refresh() {
	if (busy) return;
	busy = true;
	try {
		while (shown < latest) {
			const answer = await fetch(location.href, { cache: "no-store" });
			if (!answer.ok) throw new Error(answer.status);
			const page = new DOMParser().parseFromString(await answer.text(), "text/html");
			const version = Number(page.body.dataset.version);
			if (version < shown) continue; // of an older state
			shown = version;
			latest = Math.max(latest, version);
			const came = swap(page);
			const trouble = page.getElementById("trouble");
			const here = document.getElementById("trouble");
			if (here.innerHTML !== trouble.innerHTML) here.replaceChildren(...trouble.childNodes);
			document.getElementById("fresh").replaceChildren(...page.getElementById("fresh").childNodes);
			document.body.dataset.version = shown;
			document.getElementById("told").textContent = came ? `${came} new on this page` : "The page is up to date.";
		}
	} catch {
		lost();
	} finally {
		busy = false;
	}
}

function lost() {
	const p = document.createElement("p");
	p.className = "banner";
	p.textContent = "Not up to date: the program does not answer. Start it again and open the address that it prints.";
	document.getElementById("trouble").replaceChildren(p);
}

function tell(version) {
	if (version === "lost") return lost();
	if (version !== shown || document.querySelector("#trouble .banner")) { latest = Math.max(latest, version); refresh(); }
}

// A page that asks for something and shows nothing of the sheets stays as it is.
const still = "still" in document.body.dataset;
if (!still) channel.onmessage = e => tell(e.data);

// The tab that has the lock holds the stream; another takes over when it is closed.
if (!still) navigator.locks.request("ferrule-desk-stream" + location.pathname.replace(/[^/]*$/, ""), () => new Promise(() => {
	const stream = new EventSource("events");
	stream.onmessage = e => { channel.postMessage(Number(e.data)); tell(Number(e.data)); };
	stream.onerror = () => { channel.postMessage("lost"); lost(); };
}));

// dress adds what only works with a script: addresses that are copied at a touch.
function dress(root) {
	for (const at of root.querySelectorAll("code.at, pre.paste")) {
		const b = document.createElement("button");
		b.type = "button";
		b.className = "copy";
		b.textContent = "copy";
		b.setAttribute("aria-label", "Copy " + (at.matches("pre") ? "the row" : at.textContent));
		b.onclick = async () => {
			await navigator.clipboard.writeText(at.textContent);
			document.getElementById("told").textContent = "Copied.";
		};
		at.after(b);
	}
	const repairs = root.querySelector("#repairs");
	if (repairs) tickAll(repairs);
}

// tickAll adds a button that ticks every repair, so that single ones can be left out.
function tickAll(form) {
	const b = document.createElement("button"), ticks = [...form.querySelectorAll('[type="checkbox"]')];
	b.type = "button";
	b.className = "plain";
	const name = () => { b.textContent = ticks.every(t => t.checked) ? "Choose none" : "Choose all"; };
	b.onclick = () => {
		const all = !ticks.every(t => t.checked);
		for (const t of ticks) t.checked = all;
		name();
	};
	form.addEventListener("change", name);
	form.querySelector(".actions").append(b);
	name();
}
dress(document);
