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

  // What a condition is called on the page.
  function nameOf(name) {
    var control = form.querySelector('[name="' + name + '"]');
    var words = control.type === "checkbox" ? control.closest("fieldset").querySelector("legend").firstChild : control.labels[0];
    return words.textContent.trim();
  }

  // Conditions without which something would fit, each with how much.
  function ways(pairs) {
    var names = pairs.map(function (pair) { return pair[0]; });
    return names.filter(function (name, at) { return names.indexOf(name) === at; }).map(function (name) {
      var others = pairs.filter(function (pair) { return pair[0] !== name; });
      return [name, rows.filter(function (row) { return fits(row, others); }).length];
    }).filter(function (way) { return way[1]; });
  }

  function noneWords(pairs) {
    var said = ways(pairs).map(function (way) {
      return count.dataset.without.replace("CONDITION", nameOf(way[0])).replace("NUMBER", way[1]);
    });
    return said.length ? count.dataset.none + " " + said.join(" ") : count.dataset.fewer;
  }

  function words(found, pairs) {
    var said = count.dataset.many;
    if (!pairs.length) said = count.dataset.all;
    else if (found === 0) said = noneWords(pairs);
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
