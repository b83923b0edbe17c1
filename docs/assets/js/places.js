// Finding one's way in a long answer: which part is in view, and back to where one was in the order.

/** Marks the links of one calculator; gives back what ends that. @param {HTMLElement} root */
export function watchPlaces(root) {
  const bar = /** @type {HTMLElement | null} */ (root.querySelector(".pb-jump"));
  if (!bar) return () => {};
  const links = /** @type {HTMLAnchorElement[]} */ ([...bar.querySelectorAll("a[data-part]")]);
  const halves = /** @type {HTMLAnchorElement[]} */ ([...root.querySelectorAll(".pb-pair a")]);
  /** @type {Record<string, number>} */
  const left = {}; // how far down each half was when it was left
  let isAsked = false;
  let isHeld = false; // somebody points at the strip, and is about to press

  const here = () => ((root.querySelector(".pb-result")?.getBoundingClientRect().top ?? 0) < innerHeight / 2 ? "answer" : "form");
  const look = () => {
    isAsked = false;
    const edge = bar.getBoundingClientRect().bottom + 40;
    let current = links[0];
    for (const link of links) {
      const part = document.getElementById(link.hash.slice(1));
      if (part && part.getBoundingClientRect().top <= edge) current = link;
    }
    mark(links, current, isHeld ? undefined : bar);
    mark(halves, halves.find((link) => link.dataset.half === here()));
  };
  const ask = () => {
    if (isAsked) return;
    isAsked = true;
    requestAnimationFrame(look);
  };
  const press = (/** @type {Event} */ event) => {
    const target = /** @type {Element} */ (event.target);
    const jump = /** @type {HTMLAnchorElement | null} */ (target.closest(".pb-jump a[data-part]"));
    const part = jump && document.getElementById(jump.hash.slice(1));
    if (part) {
      event.preventDefault();
      event.stopPropagation(); // the theme would go there too, and not always arrive
      history.replaceState(history.state, "", jump.hash);
      part.focus({ preventScroll: true });
      part.scrollIntoView({ behavior: "instant" });
      return;
    }
    const link = /** @type {HTMLAnchorElement | null} */ (target.closest(".pb-pair a"));
    const half = link?.dataset.half;
    if (!link || !half) return;
    const from = here();
    if (half === from) return; // to its beginning
    event.preventDefault();
    event.stopPropagation(); // the theme would go to the link all the same
    left[from] = scrollY;
    if (left[half] === undefined) document.getElementById(link.hash.slice(1))?.scrollIntoView({ behavior: "instant" });
    else scrollTo({ top: left[half], behavior: "instant" });
  };
  bar.addEventListener("pointerenter", () => (isHeld = true));
  bar.addEventListener("pointerleave", () => (isHeld = false)); // a finger that is lifted leaves, too
  addEventListener("scroll", ask, { passive: true });
  addEventListener("resize", ask);
  root.addEventListener("click", press);
  root.addEventListener("pb-answer", ask);
  look();
  return () => {
    removeEventListener("scroll", ask);
    removeEventListener("resize", ask);
  };
}

/** @param {HTMLAnchorElement[]} links @param {HTMLAnchorElement} [current] @param {HTMLElement} [bar] what scrolls sideways to show it */
function mark(links, current, bar) {
  for (const link of links) {
    if (link === current) {
      if (link.hasAttribute("aria-current")) continue;
      link.setAttribute("aria-current", "true");
      const list = bar?.querySelector("ul");
      if (list && !isWhole(link, list)) list.scrollTo({ left: link.offsetLeft - list.clientWidth / 2 + link.clientWidth / 2 });
    } else {
      link.removeAttribute("aria-current");
    }
  }
}

/** Whether a link stands wholly in the list's own window: then the list stays where it is, under a finger that is about to press. @param {HTMLElement} link @param {HTMLElement} list */
function isWhole(link, list) {
  const [of, within] = [link.getBoundingClientRect(), list.getBoundingClientRect()];
  return of.left >= within.left && of.right <= within.right;
}
