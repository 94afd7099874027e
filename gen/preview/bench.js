// The bench: shows a page anew when its journal changes, where it was scrolled
// to, and lays the findings over it.
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

  let shown = null;
  async function findings() {
    const report = await (await fetch("/-/findings.json")).json();
    document.querySelector(".bench-report")?.remove();
    if (!report.findings.length && !report.failed) return report;
    const box = document.createElement("details");
    box.className = "bench-report";
    box.open = report.stale || Boolean(report.failed);
    const title = document.createElement("summary");
    title.textContent = report.stale ? "The page below is the last good one" : report.findings.length + " to look at";
    box.append(title);
    for (const text of [report.failed, ...report.findings.map((f) => f.text)].filter(Boolean)) {
      const line = document.createElement("pre");
      line.textContent = text;
      box.append(line);
    }
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
