// Written into the head of every page that has a calculator. The fields stand shut in the page, with the reason beside them, so that
// nobody types in vain where no script runs. This opens them while the page is being read, so that a reader can type before the scripts have
// come (docs/assets/js/panel.js keeps what they typed), and shuts them again when our script does not come or does not work.

(() => {
  const page = document.documentElement;

  /** @param {boolean} isOpen */
  const open = (isOpen) => {
    page.dataset.forms = isOpen ? "open" : "shut";
    for (const form of /** @type {NodeListOf<HTMLFieldSetElement>} */ (document.querySelectorAll("fieldset.pb-form"))) form.disabled = !isOpen;
  };

  const watcher = new MutationObserver(() => open(true));
  watcher.observe(document, { childList: true, subtree: true });
  open(true);

  const shut = () => {
    watcher.disconnect();
    if (!document.querySelector(".pb-calculator[data-live]")) open(false);
  };
  addEventListener("DOMContentLoaded", () => watcher.disconnect());
  addEventListener("load", shut);
  addEventListener(
    "error",
    (event) => {
      if (event.target instanceof HTMLScriptElement && event.target.src.endsWith("/handbook.js")) shut();
    },
    true,
  );
})();
