// Searches the site's own index, which the page has loaded as a script. Nothing that is typed leaves the machine.
(function () {
  "use strict";

  var index = window.searchIndex;
  var form = document.getElementById("search");
  var field = document.getElementById("search-words");
  var count = document.getElementById("search-count");
  var results = document.getElementById("search-results");
  if (!index || !form || !field || !count || !results) return;

  var MOST = 40;
  var EXACT = 1, BEGINS = 0.6, STEM = 0.5, NEAR = 0.3;
  var known = Object.keys(index.words);
  var kinds = JSON.parse(results.dataset.kinds);

  // As the index was made: small letters without accents.
  function wordsOf(text) {
    var plain = text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
    return plain.match(/[\p{L}\p{N}]+/gu) || [];
  }

  // Whether one word becomes the other by at most `most` letters added, left out, changed or swapped with a neighbour.
  function isNear(one, other, most) {
    if (Math.abs(one.length - other.length) > most) return false;
    var before = [], last = [], row;
    for (var j = 0; j <= other.length; j += 1) last[j] = j;
    for (var i = 1; i <= one.length; i += 1) {
      row = [i];
      for (j = 1; j <= other.length; j += 1) {
        var same = one[i - 1] === other[j - 1];
        row[j] = Math.min(row[j - 1] + 1, last[j] + 1, last[j - 1] + (same ? 0 : 1));
        if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) {
          row[j] = Math.min(row[j], before[j - 2] + 1);
        }
      }
      before = last;
      last = row;
    }
    return last[other.length] <= most;
  }

  // Known words that a typed one may stand for, each with how close it is.
  function meant(typed) {
    var found = [];
    known.forEach(function (word) {
      if (word === typed) found.push([word, EXACT]);
      else if (word.startsWith(typed)) found.push([word, BEGINS]);
      else if (word.length > 2 && typed.startsWith(word) && typed.length - word.length <= 2) found.push([word, STEM]);
    });
    if (found.length || typed.length < 4) return found;
    var most = typed.length < 8 ? 1 : 2;
    return known.filter(function (word) { return isNear(typed, word, most); })
      .map(function (word) { return [word, NEAR]; });
  }

  // Of each page the best weight of any word that the typed one may stand for.
  function scores(typed) {
    var best = new Map();
    meant(typed).forEach(function (pair) {
      var entries = index.words[pair[0]];
      for (var i = 0; i < entries.length; i += 2) {
        var score = entries[i + 1] * pair[1];
        if (score > (best.get(entries[i]) || 0)) best.set(entries[i], score);
      }
    });
    return best;
  }

  // Page numbers, best first: those with every word, else those with most of them.
  function find(words) {
    var pages = new Map();
    words.map(scores).forEach(function (best) {
      best.forEach(function (score, page) {
        var sum = pages.get(page) || { words: 0, score: 0 };
        pages.set(page, { words: sum.words + 1, score: sum.score + score });
      });
    });
    var most = Math.max(0, ...Array.from(pages.values(), function (sum) { return sum.words; }));
    function nameOf(pair) { return index.pages[pair[0]][1]; }
    var order = Array.from(pages).filter(function (pair) { return pair[1].words === most; })
      .sort(function (a, b) { return b[1].score - a[1].score || nameOf(a).length - nameOf(b).length || a[0] - b[0]; });
    return { pages: order.map(function (pair) { return pair[0]; }), whole: most === words.length };
  }

  function entry(page) {
    var item = document.createElement("li");
    var link = document.createElement("a");
    var gloss = document.createElement("span");
    link.href = page[2];
    link.textContent = page[1];
    gloss.className = "gloss";
    gloss.textContent = kinds[page[0]] + ". " + (page[4] ? results.dataset.also + " " + page[4] + ". " : "") + page[3];
    item.append(link, " ", gloss);
    return item;
  }

  function say(words, found) {
    var said = count.dataset.many;
    if (!found.pages.length) said = count.dataset.none;
    else if (!found.whole) said = count.dataset.near;
    else if (found.pages.length === 1) said = count.dataset.one;
    count.textContent = words.length ? said.replace("NUMBER", found.pages.length) : "";
  }

  function show() {
    var words = Array.from(new Set(wordsOf(field.value)));
    var found = find(words);
    results.replaceChildren(...found.pages.slice(0, MOST).map(function (page) { return entry(index.pages[page]); }));
    results.hidden = !found.pages.length;
    say(words, found);
  }

  // The address says what is looked for, so that it can be kept and passed on.
  function remember() {
    var query = new URLSearchParams({ q: field.value.trim() }).toString();
    window.history.replaceState(null, "", window.location.pathname + (field.value.trim() ? "?" + query : ""));
  }

  form.hidden = false;
  count.hidden = false;
  field.value = new URLSearchParams(window.location.search).get("q") || "";
  show();
  field.addEventListener("input", function () { show(); remember(); });
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    var first = results.querySelector("a");
    if (first) first.focus();
  });
})();
