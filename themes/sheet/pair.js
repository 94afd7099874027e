// Before and after: lays the two pictures of a pair over each other, with a
// slider that is an ordinary range input, so that keys, touch and screen
// readers work it. Without script they stand side by side.
for (const pair of document.querySelectorAll(".pair")) {
  const slider = document.createElement("input"), sides = pair.querySelectorAll(".side");
  if (sides.length !== 2) continue;
  slider.type = "range";
  slider.min = 0;
  slider.max = 100;
  slider.value = 50;
  slider.setAttribute("aria-label", pair.dataset.label);
  const move = () => {
    pair.style.setProperty("--cut", slider.value + "%");
    slider.setAttribute("aria-valuetext", slider.value + " % " + pair.dataset.before);
  };
  slider.addEventListener("input", move);
  move();
  const frame = document.createElement("div");
  frame.className = "laid";
  sides[0].before(frame);
  frame.append(...sides, slider);
  pair.classList.add("slides");
}
