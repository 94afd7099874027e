// Search. The index is made when the site is assembled and lies beside the
// pages in files of data, each a call of one of the two functions below, so
// that it loads from a server and from disk alike.
{
  const box = document.querySelector("[data-search]");
  if (box) {
    const data = box.dataset, input = box.querySelector("input"), list = box.querySelector("ol"), status = box.querySelector("[role=status]");
    const shards = Number(data.shards), chunk = Number(data.chunk), words = [], pages = [], loading = {};
    window.searchWords = (n, index) => { words[n] = index; };
    window.searchPages = (n, part) => { pages[n] = part; };

    const load = (name) => loading[name] ??= new Promise((done, failed) => {
      const script = document.createElement("script");
      script.src = data.search + name + ".js";
      script.onload = done;
      script.onerror = () => { delete loading[name]; failed(new Error(name)); };
      document.head.append(script);
    });

    // Words are folded as the index folds them: small letters, no accents, and
    // runs of Chinese and Japanese signs in overlapping twos.
    const fold = (text) => text.toLowerCase().normalize("NFD").replace(/\p{Mn}/gu, "");
    const signs = /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}ー]+/gu;
    const split = (text) => {
      const tokens = [];
      const rest = fold(text).replace(signs, (run) => {
        const all = [...run];
        if (all.length === 1) tokens.push(run);
        for (let i = 1; i < all.length; i++) tokens.push(all[i - 1] + all[i]);
        return " ";
      });
      tokens.push(...(rest.match(/[\p{L}\p{N}]+/gu) ?? []));
      return tokens;
    };
    const shardOf = (token) => {
      const [a, b] = [...token];
      return (a.codePointAt(0) * 31 + (b ? b.codePointAt(0) : 0)) % shards;
    };

    // hits returns the weight of every page on which a word begins with token.
    const hits = (token) => {
      const found = new Map();
      const parts = [...token].length > 1 ? [words[shardOf(token)]] : words;
      for (const index of parts) for (const [word, postings] of Object.entries(index ?? {})) {
        if (!word.startsWith(token)) continue;
        const near = word === token ? 2 : 1;
        for (let i = 0; i < postings.length; i += 2) {
          const weight = near * postings[i + 1] / Math.log2(2 + postings.length);
          found.set(postings[i], Math.max(found.get(postings[i]) ?? 0, weight));
        }
      }
      return found;
    };

    const marked = (text, tokens) => {
      const out = document.createDocumentFragment();
      for (const part of text.split(/([\p{L}\p{N}]+)/u)) {
        if (tokens.some((t) => part && fold(part).startsWith(t))) {
          const mark = document.createElement("mark");
          mark.textContent = part;
          out.append(mark);
        } else out.append(part);
      }
      return out;
    };

    let turn = 0;
    const search = async () => {
      const mine = ++turn, tokens = [...new Set(split(input.value))];
      if (!tokens.some((t) => [...t].length > 1) && !(tokens.length && shards === 1)) {
        list.replaceChildren();
        status.textContent = "";
        return;
      }
      let best;
      try {
        await Promise.all(tokens.map((t) => load("words-" + shardOf(t))));
        const each = tokens.map(hits);
        best = [...each[0].keys()].filter((page) => each.every((m) => m.has(page)))
          .map((page) => [page, each.reduce((sum, m) => sum + m.get(page), 0)])
          .sort((a, b) => b[1] - a[1] || a[0] - b[0]);
        await Promise.all([...new Set(best.slice(0, 30).map(([page]) => Math.floor(page / chunk)))].map((n) => load("pages-" + n)));
      } catch {
        status.textContent = data.broken;
        return;
      }
      if (mine !== turn) return;
      status.textContent = best.length ? data.found.replace("%d", best.length) : data.none;
      list.replaceChildren(...best.slice(0, 30).map(([page]) => {
        const [path, title, group, summary] = pages[Math.floor(page / chunk)][page % chunk];
        const item = document.createElement("li"), link = document.createElement("a"), text = document.createElement("p");
        link.href = data.root + path;
        link.append(marked(title, tokens));
        text.append(marked(summary, tokens));
        item.append(link, text);
        if (group && group !== title) {
          const of = document.createElement("p");
          of.className = "line";
          of.textContent = group;
          item.prepend(of);
        }
        return item;
      }));
    };

    box.addEventListener("submit", (e) => { e.preventDefault(); list.querySelector("a")?.click(); });
    input.addEventListener("input", search);
    box.addEventListener("keydown", (e) => {
      const links = [...list.querySelectorAll("a")], at = links.indexOf(document.activeElement);
      if (e.key === "ArrowDown" && links.length) links[Math.min(at + 1, links.length - 1)].focus();
      else if (e.key === "ArrowUp" && at >= 0) (links[at - 1] ?? input).focus();
      else if (e.key === "Escape" && (input.value || at >= 0)) { input.value = ""; search(); input.focus(); }
      else return;
      e.preventDefault();
    });
    input.value = new URLSearchParams(location.search).get("q") ?? "";
    if (input.value) search();
    input.focus({ preventScroll: true });
  }
}
