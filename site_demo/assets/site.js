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
      button.textContent = open ? button.dataset.closeWords : button.dataset.openWords;
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

  // The day as the reader's own clock has it: 1 for Monday to 7 for Sunday, as the pages number them.
  function markToday() {
    var today = String(new Date().getDay() || 7);
    document.querySelectorAll('[data-weekday="' + today + '"]').forEach(function (day) {
      day.setAttribute("aria-current", "date");
      day.querySelectorAll("[data-today-word]").forEach(function (word) { word.hidden = false; });
    });
    var jump = document.querySelector("[data-today-link]");
    if (!jump || !document.querySelector('.glance [data-weekday="' + today + '"] a')) return;
    jump.hidden = false;
    jump.addEventListener("click", function (event) { goToToday(event, today); });
  }

  // Today's session in the week the reader has open: the last one opened, else the first.
  function goToToday(event, today) {
    var open = Array.from(document.querySelectorAll("details.week[open]")).pop();
    var target = document.getElementById((open ? open.id : "week-1") + "-day-" + today);
    if (!target) return;
    event.preventDefault();
    window.location.hash = target.id;
  }

  revealControls();
  markToday();
  document.querySelectorAll("[data-open-all]").forEach(setUpOpenAll);
  openTarget();
  window.addEventListener("hashchange", openTarget);
  window.addEventListener("beforeprint", openForPaper);
  window.addEventListener("afterprint", closeAfterPaper);
})();
