// Written into the head of every page. The theme's script, when it comes, sets the address of every link to the whole address. A style sheet
// whose address is set is loaded again, even the same one, and the typefaces with it: until they are back the text stands in another face and
// what is below it moves. So these links say their whole address from the beginning, as the theme would write it, and let nobody set it.

(() => {
  for (const link of /** @type {NodeListOf<HTMLLinkElement>} */ (document.head.querySelectorAll('link:is([rel="stylesheet"], [rel="preload"])'))) {
    const { href } = link;
    const whole = /** @type {HTMLLinkElement} */ (link.cloneNode()); // outside the page: loads nothing
    whole.href = href;
    Object.defineProperties(link, {
      href: { get: () => href, set: () => {} },
      outerHTML: { get: () => whole.outerHTML }, // what the theme compares heads by when it changes pages
    });
  }
})();
