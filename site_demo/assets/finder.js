// Narrows the table of programs to what the reader asks for. The page's lists do the same without this file.
(function () {
  "use strict";

  var form = document.getElementById("finder");
  var count = document.getElementById("finder-count");
  if (!form || !count) return;
  var rows = Array.from(document.querySelectorAll("tr[data-level]"));
  var table = rows.length ? rows[0].closest("table") : null;

  function list(text) {
    return text ? text.split("|") : [];
  }

  // What the form asks for, as names and values in the order of the form; empty answers ask for nothing.
  function asked() {
    return Array.from(new FormData(form)).filter(function (pair) { return pair[1] !== ""; });
  }

  function values(pairs, name) {
    return pairs.filter(function (pair) { return pair[0] === name; }).map(function (pair) { return pair[1]; });
  }

  function fits(row, pairs) {
    function every(name, test) { return values(pairs, name).every(test); }
    var have = values(pairs, "kit");
    return every("level", function (value) { return row.dataset.level === value; })
      && every("days", function (value) { return row.dataset.days === value; })
      && every("minutes", function (value) { return Number(row.dataset.minutes) <= Number(value); })
      && every("muscle", function (value) { return list(row.dataset.muscles).includes(value); })
      && every("technique", function (value) { return list(row.dataset.techniques).includes(value); })
      && (!have.length || list(row.dataset.kit).every(function (piece) { return have.includes(piece); }));
  }

  function words(found, pairs) {
    var said = count.dataset.many;
    if (!pairs.length) said = count.dataset.all;
    else if (found === 0) said = count.dataset.none;
    else if (found === 1) said = count.dataset.one;
    return said.replace("NUMBER", found);
  }

  function narrow() {
    var pairs = asked();
    var found = 0;
    rows.forEach(function (row) {
      row.hidden = !fits(row, pairs);
      if (!row.hidden) found += 1;
    });
    if (table) table.hidden = !found;
    count.textContent = words(found, pairs);
    return pairs;
  }

  // The address says what is asked, so that it can be kept and passed on.
  function remember(pairs) {
    var query = new URLSearchParams(pairs).toString();
    window.history.replaceState(null, "", window.location.pathname + (query ? "?" + query : ""));
  }

  function recall() {
    var query = new URLSearchParams(window.location.search);
    Array.from(form.elements).forEach(function (control) {
      if (control.type === "checkbox") control.checked = query.getAll(control.name).includes(control.value);
      else if (control.name && query.has(control.name)) control.value = query.get(control.name);
      // An address with a value that is not offered asks for nothing.
      if (control.tagName === "SELECT" && control.selectedIndex < 0) control.value = "";
    });
  }

  form.hidden = false;
  recall();
  narrow();
  form.addEventListener("change", function () { remember(narrow()); });
  form.addEventListener("submit", function (event) { event.preventDefault(); });
  form.addEventListener("reset", function () { setTimeout(function () { remember(narrow()); }); });
})();
