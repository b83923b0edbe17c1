// Written into the head of every page that has a calculator. Fields are disabled in the page, with the reason beside them, so that nobody
// types in vain where no script runs. This enables them while the page is being parsed, so that a reader can type before the scripts have
// loaded (docs/assets/js/panel.js keeps what they typed), and disables them again when our script does not load or does not work.

(() => {
  const page = document.documentElement;

  /** @param {boolean} isOpen */
  const enable = (isOpen) => {
    page.dataset.forms = isOpen ? "open" : "shut";
    for (const form of /** @type {NodeListOf<HTMLFieldSetElement>} */ (document.querySelectorAll("fieldset.pb-form"))) form.disabled = !isOpen;
  };

  const watcher = new MutationObserver(() => enable(true));
  watcher.observe(document, { childList: true, subtree: true });
  enable(true);

  const disableUnlessLive = () => {
    watcher.disconnect();
    if (!document.querySelector(".pb-calculator[data-live]")) enable(false);
  };
  addEventListener("DOMContentLoaded", () => watcher.disconnect());
  addEventListener("load", disableUnlessLive);
  addEventListener(
    "error",
    (event) => {
      if (event.target instanceof HTMLScriptElement && event.target.src.endsWith("/handbook.js")) disableUnlessLive();
    },
    true,
  );
})();
