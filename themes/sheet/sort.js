// Lets a reader sort the tables marked sortable by their headings. Without it
// they stand in the order in which they were printed.
for (const table of document.querySelectorAll("table.sortable")) {
  const body = table.tBodies[0];
  const value = (row, i) => {
    const cell = row.cells[i], number = cell.dataset.sort;
    return number === undefined ? cell.textContent.trim() : Number(number);
  };
  [...table.tHead.rows[0].cells].forEach((head, i) => {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener("click", () => {
      // Numbers begin with the highest, words with A.
      const numeric = body.rows[0]?.cells[i].dataset.sort !== undefined;
      const now = head.getAttribute("aria-sort");
      const up = now === null ? !numeric : now === "descending";
      for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
      head.setAttribute("aria-sort", up ? "ascending" : "descending");
      const rows = [...body.rows].sort((a, b) => {
        const x = value(a, i), y = value(b, i);
        const order = typeof x === "number" ? x - y : x.localeCompare(y, document.documentElement.lang);
        return up ? order : -order;
      });
      body.append(...rows);
    });
  });
}
