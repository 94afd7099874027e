// The bench: shows a page anew when its journal changes, where it was scrolled
// to, and lays the findings over it: those that stop, then those of the build on
// the page, then the others, folded away.
(() => {
  "use strict";
  const place = "spruelight place " + location.pathname;
  const kept = sessionStorage.getItem(place);
  if (kept !== null) {
    sessionStorage.removeItem(place);
    requestAnimationFrame(() => scrollTo(0, Number(kept)));
  }
  const sheet = document.createElement("link");
  sheet.rel = "stylesheet";
  sheet.href = "/-/bench.css";
  document.head.append(sheet);

  const make = (tag, name, text) => {
    const e = document.createElement(tag);
    if (name) e.className = name;
    if (text) e.textContent = text;
    return e;
  };

  // Lines of a file and the mark beneath them keep their columns; words wrap.
  function item(severity, text) {
    const box = make("div", "bench-finding " + severity);
    let lines = null;
    for (const line of text.trimEnd().split("\n")) {
      if (!/^ *\d* \|/.test(line)) {
        box.append(make("p", "", line.trim()));
        lines = null;
      } else if (lines) lines.textContent += "\n" + line;
      else box.append((lines = make("pre", "", line)));
    }
    return box;
  }

  function fold(name, title, items) {
    const box = make("details", name);
    box.append(make("summary", "", title), ...items);
    return box;
  }

  let shown = null;
  async function findings() {
    const report = await (await fetch("/-/findings.json")).json();
    document.querySelector(".bench-report")?.remove();
    if (!report.findings.length && !report.failed) return report;
    const first = location.pathname.split("/")[1];
    const folder = first === "wall" ? "wall/" : "builds/" + first + "/";
    const stops = report.findings.filter((f) => f.severity === "stop");
    const others = report.findings.filter((f) => f.severity !== "stop");
    const here = others.filter((f) => f.file.startsWith(folder)), elsewhere = others.filter((f) => !f.file.startsWith(folder));
    const shownItems = (list) => list.map((f) => item(f.severity, f.text));
    const items = shownItems([...stops, ...here]);
    if (report.failed) items.unshift(item("stop", report.failed));
    if (items.length && elsewhere.length) items.push(fold("", elsewhere.length + " elsewhere", shownItems(elsewhere)));
    else items.push(...shownItems(elsewhere));
    const title = report.stale ? (report.empty ? "No pages until this is mended" : "This page is the last good one") : here.length ? here.length + " to look at here" : elsewhere.length + " to look at elsewhere";
    const box = fold("bench-report", title, items);
    box.open = report.stale || Boolean(report.failed);
    document.body.append(box);
    return report;
  }

  const stream = new EventSource("/-/events");
  stream.addEventListener("version", async (event) => {
    if (shown === null) {
      shown = event.data;
      findings();
      return;
    }
    if (event.data === shown) return;
    shown = event.data;
    const report = await findings();
    if (report.stale) return;
    sessionStorage.setItem(place, String(scrollY));
    location.reload();
  });
})();
