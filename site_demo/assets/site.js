// Small comforts. Every page reads and prints in full without this file.
(function () {
  "use strict";

  function revealControls() {
    document.querySelectorAll("[data-needs-script]").forEach(function (control) {
      control.hidden = false;
    });
  }

  function openAncestors(element) {
    for (var node = element; node; node = node.parentElement) {
      if (node.tagName === "DETAILS") node.open = true;
    }
  }

  // Some browsers jump to a closed week without opening it.
  function openTarget() {
    var name = decodeURIComponent(window.location.hash.slice(1));
    var target = name ? document.getElementById(name) : null;
    if (!target) return;
    openAncestors(target);
    target.scrollIntoView();
  }

  function setUpOpenAll(button) {
    var weeks = document.querySelectorAll(button.dataset.openAll);
    button.addEventListener("click", function () {
      var open = button.dataset.state !== "open";
      weeks.forEach(function (week) { week.open = open; });
      button.dataset.state = open ? "open" : "";
      button.textContent = open ? "Close every week" : "Open every week";
    });
  }

  function openForPaper() {
    document.querySelectorAll("details").forEach(function (part) {
      if (part.open) return;
      part.open = true;
      part.dataset.openedForPaper = "yes";
    });
  }

  function closeAfterPaper() {
    document.querySelectorAll("details[data-opened-for-paper]").forEach(function (part) {
      part.open = false;
      delete part.dataset.openedForPaper;
    });
  }

  revealControls();
  document.querySelectorAll("[data-open-all]").forEach(setUpOpenAll);
  openTarget();
  window.addEventListener("hashchange", openTarget);
  window.addEventListener("beforeprint", openForPaper);
  window.addEventListener("afterprint", closeAfterPaper);
})();
