// Shows a reader's own loads in the place of the example lifter's, on a program's page and on the sheets of its weeks.
// Their numbers are kept in this browser, and in nothing else; what puts them in is fetched from this copy of the site,
// and only when there are any.
(function () {
  "use strict";

  var notice = document.querySelector("[data-own-loads]");
  var wordsAt = document.getElementById("own-words");
  if (!notice || !wordsAt) return;
  var words = JSON.parse(wordsAt.textContent);
  var place = "own loads " + new URL(notice.dataset.root, document.baseURI).pathname;
  var LINK = "#your-numbers?";
  var MASS = /^-?\d{1,4}(\.\d{1,3})?$/;
  var PARTS = ["unit", "body", "plates", "dumbbells", "stack"];
  var undo = [];
  var fetched = {};

  // -- The reader's numbers: {unit, name, body, lifts: {lift: [load, reps]}, bars, plates, dumbbells, stack}.

  function isMass(text, least) {
    return typeof text === "string" && MASS.test(text) && Number(text) >= least && Number(text) <= 2000;
  }

  function only(found, isSound) {
    var kept = {};
    Object.keys(found && typeof found === "object" ? found : {}).sort().forEach(function (name) {
      if (/^[a-z0-9-]{1,80}$/.test(name) && isSound(found[name])) kept[name] = found[name];
    });
    return kept;
  }

  // What is sound of numbers that come from the browser's memory or from a link; null for nothing.
  function sound(found) {
    if (!found || typeof found !== "object") return null;
    var numbers = {
      unit: found.unit === "lb" ? "lb" : "kg",
      name: typeof found.name === "string" ? found.name.slice(0, 40) : "",
      body: isMass(found.body, 1) ? found.body : "",
      lifts: only(found.lifts, function (set) {
        return Array.isArray(set) && isMass(set[0], -2000) && /^[1-9]\d?$/.test(set[1]);
      }),
      bars: only(found.bars, function (mass) { return isMass(mass, 0); })
    };
    ["plates", "dumbbells", "stack"].forEach(function (part) {
      numbers[part] = isMass(found[part], 0) ? found[part] : "";
    });
    return Object.keys(numbers.lifts).length ? numbers : null;
  }

  function stored() {
    try {
      return sound(JSON.parse(window.localStorage.getItem(place)));
    } catch (error) {
      return null;
    }
  }

  // Whether they are kept: some browsers keep nothing for a page, or for one opened from a folder.
  function keep(numbers) {
    try {
      if (numbers) window.localStorage.setItem(place, JSON.stringify(numbers));
      else window.localStorage.removeItem(place);
      return true;
    } catch (error) {
      return false;
    }
  }

  // -- As a link: everything but the name, after the mark that no browser sends to a host.

  function toLink(numbers) {
    var said = new URLSearchParams();
    PARTS.forEach(function (part) {
      if (numbers[part]) said.set(part, numbers[part]);
    });
    Object.keys(numbers.bars).forEach(function (bar) { said.set("bar." + bar, numbers.bars[bar]); });
    Object.keys(numbers.lifts).forEach(function (lift) { said.set("set." + lift, numbers.lifts[lift].join("x")); });
    return window.location.href.split("#")[0] + LINK + said.toString();
  }

  function fromLink() {
    if (!window.location.hash.startsWith(LINK)) return null;
    var found = { lifts: {}, bars: {} };
    new URLSearchParams(window.location.hash.slice(LINK.length)).forEach(function (value, name) {
      if (name.startsWith("set.")) found.lifts[name.slice(4)] = value.split("x");
      else if (name.startsWith("bar.")) found.bars[name.slice(4)] = value;
      else if (PARTS.indexOf(name) >= 0) found[name] = value;
    });
    return sound(found);
  }

  // -- What was prepared.

  function fetchScript(source) {
    fetched[source] = fetched[source] || new Promise(function (resolve, reject) {
      var script = document.createElement("script");
      script.src = source;
      script.onload = resolve;
      script.onerror = function () { delete fetched[source]; script.remove(); reject(new Error(source)); };
      document.head.append(script);
    });
    return fetched[source];
  }

  function handedOver(source) {
    return window.prepared[/prepared-([0-9a-f]+)\.js$/.exec(source)[1]];
  }

  function readerOf(numbers) {
    var sources = [notice.dataset.plan].concat(notice.dataset[numbers.unit].split(" "));
    return Promise.all([notice.dataset.core].concat(sources).map(fetchScript)).then(function () {
      var data = sources.map(handedOver);
      return window.ownLoads.forReader(data[0], data[1], data[2], usable(data[0], numbers));
    });
  }

  // Help that weighs as much as the body leaves nothing to lift.
  function usable(plan, numbers) {
    var lifts = {};
    Object.keys(numbers.lifts).forEach(function (name) {
      var onBody = plan.exercises[name] && plan.exercises[name].kind === "bodyweight";
      var moved = Number(numbers.lifts[name][0]) + (onBody ? Number(numbers.body) : 0);
      if (moved > 0) lifts[name] = numbers.lifts[name];
    });
    return Object.assign({}, numbers, { lifts: lifts });
  }

  // -- The page. Every change leaves behind how to take it back.

  // No line ends between a number and its unit, as in what was printed.
  function unparted(text) {
    return text.replace(/(\d) (?=(?:kg|lb|s|min)\b|%)/g, "$1\u00a0");
  }

  function write(element, words) {
    var text = element && unparted(words);
    if (!element || element.textContent === text) return;
    var before = Array.from(element.childNodes);
    element.textContent = text;
    undo.push(function () { element.replaceChildren.apply(element, before); });
  }

  function add(element, put) {
    put(element);
    undo.push(function () { element.remove(); });
    return element;
  }

  function addAfterSpace(element, within) {
    add(document.createTextNode(" "), function (space) { within.append(space); });
    add(element, function (last) { within.append(last); });
  }

  function made(tag, name, text) {
    var element = document.createElement(tag);
    element.className = name;
    element.textContent = unparted(text || "");
    return element;
  }

  function hide(element, hidden) {
    if (!element || element.hidden === hidden) return;
    element.hidden = hidden;
    undo.push(function () { element.hidden = !hidden; });
  }

  function writeHint(row, told) {
    if (!told.lacks) return;
    var hint = made("a", "own-hint", words.hint);
    hint.href = notice.dataset.form;
    hint.append(made("span", "hidden-words", ", " + told.name));
    addAfterSpace(hint, row.querySelector("td.load, .plan"));
  }

  // A load that could not be had as it was meant: more than meant is told first.
  function writeAmiss(row, told) {
    ["above", "light", "heavy"].filter(function (kind) { return told.amiss.indexOf(kind) >= 0; }).forEach(function (kind) {
      addAfterSpace(made("strong", "own-amiss", words[kind]), row.querySelector("td.load, .plan"));
    });
  }

  // In a table the plates end the cell; on a sheet they come before the rest, with a full stop.
  function writePlates(row, plates) {
    var within = row.querySelector("td.load, .how");
    var there = within && within.querySelector(".plates");
    if (there) {
      hide(there.closest(".plates-first") || there, !plates);
      if (plates) write(there, plates);
    } else if (within && plates) {
      var span = made("span", "plates", plates);
      if (row.matches("tr")) add(span, function (last) { within.append(last); });
      else {
        var first = made("span", "plates-first");
        first.append(span, ". ");
        add(first, function (opening) { within.prepend(opening); });
      }
    }
  }

  // The warm-up stands among a lift's notes, which it may have to open.
  function writeWarmUp(row, warm) {
    var notes = row.nextElementSibling && row.nextElementSibling.matches("tr.notes") ? row.nextElementSibling : null;
    var line = (row.matches("tr") ? notes : row) && (row.matches("tr") ? notes : row).querySelector(".warm-up");
    if (line) {
      hide(line, !warm);
      if (warm) write(line.querySelector("[data-own=warm]"), warm);
    }
    if (line || !warm) return;
    line = made("p", "warm-up", words.warm + " " + warm);
    if (!row.matches("tr")) add(line, function (p) { row.querySelector(".how, .plan").after(p); });
    else if (notes) add(line, function (p) { notes.cells[0].prepend(p); });
    else {
      notes = made("tr", "notes");
      notes.append(document.createElement("td"));
      notes.cells[0].colSpan = 7;
      notes.cells[0].append(line);
      add(notes, function (tr) { row.after(tr); });
    }
  }

  // 'As many as form allows (about 8)': the figure is the example lifter's until it is the reader's.
  function writeCounts(element, said, counts) {
    if (!element || !counts.length) return;
    var figure = said.about.split("{}");
    var text = element.textContent.split(said.most).map(function (part, at) {
      if (!at) return part;
      var count = counts[Math.min(at, counts.length) - 1];
      if (part.startsWith(figure[0])) part = part.slice(part.indexOf(figure[1]) + figure[1].length);
      return said.most + (count > 1 ? figure.join(count) : "") + part;
    }).join("");
    write(element, text);
  }

  function writeBoxes(row, told, said) {
    var boxes = row.querySelectorAll(".entry");
    var at = 0;
    var bar = told.plates;
    told.boxes.forEach(function (pieces, set) {
      pieces.forEach(function (piece, part) {
        var box = boxes[at];
        at += 1;
        if (!box) return;
        write(box.querySelector(".planned-load"), piece[0]);
        if (!part && told.counted[set]) writeCounts(box.querySelector(".planned-reps"), said, [told.counts[set]]);
        var plates = piece[1] === bar ? "" : piece[1];
        bar = piece[1];
        var there = box.querySelector(".planned-plates");
        if (there) write(there, plates);
        else if (plates) addAfterSpace(made("span", "planned-plates", plates), box.querySelector(".planned"));
      });
    });
  }

  function writeLift(row, told, said) {
    var load = row.querySelector("[data-own=load]");
    var notes = row.nextElementSibling;
    if (!load) return;
    write(load, told.load);
    writeHint(row, told);
    writePlates(row, told.plates);
    writeAmiss(row, told);
    writeWarmUp(row, told.warm);
    if (told.note) {
      var within = row.matches("tr") ? (notes && notes.matches("tr.notes") ? notes : null) : row;
      write(within && within.querySelector("[data-own=note]"), told.note);
    }
    var counts = told.heads.filter(function (set) { return told.counted[set]; })
      .map(function (set) { return told.counts[set]; });
    row.querySelectorAll("[data-own=reps]").forEach(function (element) { writeCounts(element, said, counts); });
    writeBoxes(row, told, said);
  }

  function takeBack() {
    while (undo.length) undo.pop()();
    document.body.classList.remove("own-loads");
    notice.hidden = true;
  }

  function withCurve(text, numbers) {
    return text.replace(/\{(name)?\}/g, function (whole, name) { return name ? numbers.name : notice.dataset.curve; });
  }

  function say(numbers) {
    var paper = withCurve(numbers.name ? words.paperName : words.paper, numbers);
    document.querySelectorAll("[data-own=lifter]").forEach(function (note) { write(note, paper); });
    document.querySelectorAll("[data-own=example]").forEach(function (part) { hide(part, true); });
    tellNotice(numbers.name ? words.ownName.replace("{}", function () { return numbers.name; }) : words.own, words.start, words.change);
  }

  function tellNotice(first, then, link) {
    notice.replaceChildren(made("strong", "", first), " " + then + " ");
    var to = made("a", "", link);
    to.href = notice.dataset.form;
    notice.append(to);
    notice.hidden = false;
  }

  // Resolves to the reader once the page is theirs, or to null where the example lifter's loads stand.
  function show(numbers) {
    if (!numbers) return Promise.resolve(takeBack()).then(offer);
    return readerOf(numbers).then(function (reader) {
      takeBack();
      document.querySelectorAll("[data-own-session]").forEach(function (session) {
        var told = reader.session(Number(session.dataset.ownSession));
        session.querySelectorAll("tr.lift, .sheet-lift").forEach(function (row, at) {
          if (told[at]) writeLift(row, told[at], reader.words);
        });
      });
      document.body.classList.add("own-loads");
      say(numbers);
      return reader;
    }, function () {
      takeBack();
      tellNotice(words.missing, "", words.change);
      return null;
    });
  }

  // A week's page has no form of its own and says where it is.
  function offer() {
    if (!document.querySelector("[data-own-form]")) tellNotice(words.example, "", words.enter);
    return null;
  }

  var linked = fromLink();
  var kept = stored();
  if (linked && !kept) keep(linked);

  window.ownPage = {
    words: words, show: show, reader: readerOf, keep: keep, stored: stored, toLink: toLink, sound: sound,
    start: linked || kept,
    isFromLink: Boolean(linked && kept && JSON.stringify(Object.assign({}, kept, { name: "" })) !== JSON.stringify(linked))
  };
  window.ownPage.shown = show(linked || kept);
})();
