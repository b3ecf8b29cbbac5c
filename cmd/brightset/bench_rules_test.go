package main

// accessibleRules is a script that says what keeps somebody from using the page who
// can't see it, sees little, or has big thumbs; nothing where all is well. Text has the
// contrast that WCAG 2 asks for (4.5, large text 3), what is pressed is 48 pixels high.
const accessibleRules = `(() => {
	const bad = [], say = (what, e) => bad.push(what + (e ? ": " + e.outerHTML.slice(0, 100) : ""));
	const all = q => [...document.querySelectorAll(q)], shown = e => e.checkVisibility({visibilityProperty: true});
	if (!document.documentElement.lang) say("no language");
	if (!document.title.trim()) say("no title");
	if (all("h1").filter(shown).length !== 1) say("main headings: " + all("h1").length);
	if (all("main:not([role]), [role=main]").length !== 1) say("main parts: not one");

	const ids = new Set();
	for (const e of all("[id]")) { if (ids.has(e.id)) say("id twice", e); ids.add(e.id); }
	for (const name of ["aria-labelledby", "aria-describedby", "aria-controls", "for"])
		for (const e of all("[" + name + "]"))
			for (const id of e.getAttribute(name).split(/\s+/)) if (!ids.has(id)) say(name + " points at nothing", e);
	for (const e of all("[tabindex]")) if (e.tabIndex > 0) say("out of order", e);

	const words = e => (e.getAttribute("aria-label") || e.title || e.textContent || "").trim()
		|| [...e.querySelectorAll("img[alt], svg title")].map(i => i.alt || i.textContent).join("").trim();
	for (const e of all("a[href], button, summary").filter(shown)) if (!words(e)) say("no name", e);
	for (const e of all("input:not([type=hidden], [type=submit]), select, textarea").filter(shown))
		if (![...(e.labels || [])].some(words) && !e.getAttribute("aria-label") &&
			!e.getAttribute("aria-labelledby")) say("no label", e);
	for (const e of all("img")) if (!e.hasAttribute("alt")) say("no words for a picture", e);
	for (const e of all("table")) if (!e.querySelector("th")) say("no head in a table", e);
	let level = 0;
	for (const e of all("h1, h2, h3, h4, h5, h6").filter(shown)) {
		if (Number(e.tagName[1]) > level + 1) say("a level is left out", e);
		level = Number(e.tagName[1]);
	}

	const canvas = document.createElement("canvas").getContext("2d", {willReadFrequently: true});
	const colour = text => {
		canvas.clearRect(0, 0, 1, 1); canvas.fillStyle = text; canvas.fillRect(0, 0, 1, 1);
		return [...canvas.getImageData(0, 0, 1, 1).data];
	};
	const light = c => {
		const [r, g, b] = c.slice(0, 3).map(v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
		return 0.2126 * r + 0.7152 * g + 0.0722 * b;
	};
	const behind = e => {
		for (; e; e = e.parentElement) {
			const c = colour(getComputedStyle(e).backgroundColor);
			if (c[3] === 255) return c;
		}
		return [255, 255, 255, 255];
	};
	for (const e of all("body *").filter(e => shown(e) && !e.closest("svg, :disabled") &&
			[...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()))) {
		const style = getComputedStyle(e), size = parseFloat(style.fontSize),
			large = size >= 24 || (size >= 18.66 && style.fontWeight >= 700);
		const [a, b] = [light(colour(style.color)), light(behind(e))],
			contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
		if (contrast < (large ? 3 : 4.5)) say("too pale, " + contrast.toFixed(2), e);
	}

	if (document.documentElement.scrollWidth > document.documentElement.clientWidth) say("wider than the screen");
	for (const e of all("button, summary, a.button, .keys span, nav a"))
		if (e.offsetParent && e.getBoundingClientRect().height < 48) say("too small to hit", e);
	return bad.slice(0, 20).join("\n");
})()`
