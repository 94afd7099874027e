// The photo viewer: a photo that links to its large file opens over the page.
// Arrow keys, swipes and buttons lead to the page's other photos, Escape closes,
// and the focus returns to where it was.
{
  const say = document.currentScript.dataset, links = [...document.querySelectorAll("a.zoom")];
  if (links.length && window.HTMLDialogElement) {
    const make = (name, className, text) => {
      const e = document.createElement(name);
      if (className) e.className = className;
      if (text) e.textContent = text;
      return e;
    };
    const button = (className, label, act) => {
      const b = make("button", className);
      b.type = "button";
      b.setAttribute("aria-label", label);
      b.addEventListener("click", act);
      return b;
    };
    let at = 0, from = null;
    const viewer = make("dialog", "viewer"), picture = make("img"), words = make("p"), count = make("span", "count");
    viewer.setAttribute("aria-label", say.photo);
    viewer.tabIndex = -1;
    const show = (n) => {
      at = (n + links.length) % links.length;
      const small = links[at].querySelector("picture img"), caption = links[at].closest("figure")?.querySelector("figcaption");
      picture.src = links[at].href;
      picture.alt = small?.alt ?? "";
      for (const side of ["width", "height"]) picture.setAttribute(side, small?.getAttribute(side) ?? "");
      words.textContent = [...(caption?.childNodes ?? [])].map((n) => n.textContent.trim()).filter(Boolean).join(" · ");
      count.textContent = (at + 1) + "\u2009/\u2009" + links.length;
    };
    const bar = make("div", "bar");
    bar.append(count, words);
    if (links.length > 1) bar.append(button("back", say.back, () => show(at - 1)), button("on", say.next, () => show(at + 1)));
    bar.append(button("shut", say.shut, () => viewer.close()));
    viewer.append(picture, bar);
    viewer.addEventListener("keydown", (e) => {
      if (e.key === "ArrowLeft") show(at - 1);
      else if (e.key === "ArrowRight") show(at + 1);
    });
    viewer.addEventListener("click", (e) => { if (e.target === viewer) viewer.close(); });
    viewer.addEventListener("pointerdown", (e) => { from = e; });
    viewer.addEventListener("pointerup", (e) => {
      const across = e.clientX - from?.clientX, along = e.clientY - from?.clientY;
      if (e.pointerType === "touch" && Math.abs(across) > Math.max(60, Math.abs(along))) show(at + (across < 0 ? 1 : -1));
    });
    viewer.addEventListener("close", () => { picture.removeAttribute("src"); links[at].focus(); });
    document.body.append(viewer);
    links.forEach((link, i) => link.addEventListener("click", (e) => {
      if (e.ctrlKey || e.metaKey || e.shiftKey || e.button) return;
      e.preventDefault();
      show(i);
      viewer.showModal();
      viewer.focus(); // not a button: the key that opened would press it
    }));
  }
}
