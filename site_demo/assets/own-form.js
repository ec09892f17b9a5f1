// The form for a reader's own numbers: reads what is typed, says in words what is amiss, and hands it to the page.
(function () {
  "use strict";

  var page = window.ownPage;
  var place = document.querySelector("[data-own-form]");
  if (!page || !place) return;
  var words = page.words;
  var form = place.querySelector("form");
  var status = document.getElementById("own-status");
  var linkLine = form.querySelector("[data-own-link]");
  var seeLine = form.querySelector("[data-own-see]");
  var lifts = Array.from(form.querySelectorAll("[data-lift]"));
  var PARTS = ["plates", "dumbbells", "stack"];
  var body = form.elements.body;

  // What was said of a lift before anything was typed, to be said again.
  var said = new Map(Array.from(form.querySelectorAll(".said")).map(function (line) { return [line, line.textContent]; }));

  function unit() {
    return form.elements.unit.value;
  }

  function inUnit(selector) {
    return Array.from(form.querySelectorAll('.fields[data-unit="' + unit() + '"] ' + selector));
  }

  function showUnit() {
    form.querySelectorAll("[data-unit-word]").forEach(function (word) { word.textContent = unit(); });
    form.querySelectorAll(".fields[data-unit]").forEach(function (part) { part.hidden = part.dataset.unit !== unit(); });
  }

  // A number as people write it: with a comma, with the unit behind it, with a true minus sign.
  function readMass(field) {
    var text = field.value.trim().replace(/\s*(kg|lbs?)$/i, "").replace(",", ".").replace("−", "-").replace(/^\+/, "");
    return /^-?\d{1,4}(\.\d{1,3})?$/.test(text) ? text : null;
  }

  function sayOf(line, text) {
    line.textContent = text;
  }

  // The heading of a lift, or a field's own label.
  function nameOf(field) {
    var lift = field.closest("fieldset");
    return (lift ? lift.querySelector("legend") : field.closest("label")).textContent.trim().replace(/\s+/g, " ");
  }

  function unfold(field) {
    var part = field.closest(".own-part");
    if (part) part.open = true;
  }

  function blame(field, line, text) {
    field.setAttribute("aria-invalid", "true");
    field.setAttribute("aria-describedby", line.id);
    sayOf(line, text);
    return field;
  }

  function absolve() {
    form.querySelectorAll("[aria-invalid]").forEach(function (field) { field.removeAttribute("aria-invalid"); });
    said.forEach(function (text, line) { sayOf(line, text); });
  }

  function amissInLift(lift, weight) {
    var load = lift.querySelector("[name=load]"), reps = lift.querySelector("[name=reps]");
    var line = lift.querySelector(".said");
    var mass = readMass(load);
    var onBody = Boolean(lift.dataset.onBody);
    if (mass === null || Number(mass) > 2000 || (!onBody && Number(mass) <= 0)) {
      return blame(load, line, onBody ? words.needAdded : words.needLoad);
    }
    if (onBody && weight && Number(mass) + Number(weight) <= 0) return blame(load, line, words.tooMuchHelp);
    if (!/^[1-9]\d?$/.test(reps.value.trim()) || Number(reps.value) > Number(lift.dataset.most)) {
      return blame(reps, line, words.needReps.replace("{}", lift.dataset.most));
    }
    return null;
  }

  function isFilled(lift) {
    return Array.from(lift.querySelectorAll("input")).some(function (field) { return field.value.trim(); });
  }

  // A set of a lift on the body tells a max only with the body's weight.
  function needsBody() {
    return lifts.filter(isFilled).some(function (lift) { return Boolean(lift.dataset.onBody); });
  }

  // The fields that are amiss, first one first; each has been told why.
  function amiss() {
    var found = [];
    if (body && (body.value.trim() || needsBody()) && !(Number(readMass(body)) >= 1)) {
      found.push(blame(body, document.getElementById("own-said-body"), words.needBody));
    }
    lifts.filter(isFilled).forEach(function (lift) { found.push(amissInLift(lift, body && readMass(body))); });
    inUnit("[data-bar]").forEach(function (bar) {
      if (bar.value.trim() && !(Number(readMass(bar)) >= 0 && readMass(bar) !== null)) {
        found.push(blame(bar, document.getElementById("own-said-bar"), words.needBar));
      }
    });
    return found.filter(Boolean);
  }

  // What was typed, with what is kept for lifts and bars that this program does not ask for.
  function read() {
    var before = page.stored() || { lifts: {}, bars: {} };
    var numbers = {
      unit: unit(), name: form.elements.name.value.trim(), body: body ? readMass(body) || "" : before.body || "",
      lifts: before.unit === unit() ? Object.assign({}, before.lifts) : {},
      bars: before.unit === unit() ? Object.assign({}, before.bars) : {}
    };
    if (!body && before.unit !== unit()) numbers.body = "";
    lifts.forEach(function (lift) {
      var fields = [lift.querySelector("[name=load]"), lift.querySelector("[name=reps]")];
      if (isFilled(lift)) numbers.lifts[lift.dataset.lift] = [readMass(fields[0]), fields[1].value.trim()];
      else delete numbers.lifts[lift.dataset.lift];
    });
    inUnit("[data-bar]").forEach(function (bar) {
      if (bar.value.trim()) numbers.bars[bar.dataset.bar] = readMass(bar);
      else delete numbers.bars[bar.dataset.bar];
    });
    PARTS.forEach(function (part) {
      var chosen = inUnit("[name=" + part + "]")[0];
      numbers[part] = chosen ? chosen.value : before.unit === unit() ? before[part] || "" : "";
    });
    return page.sound(numbers);
  }

  function fill(numbers) {
    form.elements.unit.value = numbers.unit;
    form.elements.name.value = numbers.name || "";
    if (body) body.value = numbers.body;
    lifts.forEach(function (lift) {
      var set = numbers.lifts[lift.dataset.lift] || ["", ""];
      lift.querySelector("[name=load]").value = set[0];
      lift.querySelector("[name=reps]").value = set[1];
    });
    showUnit();
    lifts.filter(isFilled).forEach(unfold);
    inUnit("[data-bar]").forEach(function (bar) { bar.value = numbers.bars[bar.dataset.bar] || ""; });
    PARTS.forEach(function (part) {
      inUnit("[name=" + part + "]").forEach(function (choice) { choice.value = numbers[part] || ""; });
    });
    inUnit("input, select").filter(function (field) { return field.value; }).forEach(unfold);
  }

  function tellMaxes(reader) {
    lifts.filter(isFilled).forEach(function (lift) {
      var max = reader.max(lift.dataset.lift);
      if (max) sayOf(lift.querySelector(".said"), (lift.dataset.onBody ? words.maxBody : words.max).replace("{}", max));
    });
  }

  // The numbers typed if they are sound; else what is amiss has been said, and the first of it has the focus.
  function checked() {
    absolve();
    seeLine.hidden = true;
    var wrong = amiss();
    if (!wrong.length && lifts.some(isFilled)) return read();
    if (wrong.length) turnTo(wrong);
    else {
      status.textContent = words.nothing;
      lifts[0].querySelector("input").focus();
    }
    return null;
  }

  function turnTo(fields) {
    status.textContent = words.wrong.replace("{}", function () { return fields.map(nameOf).join(", "); });
    fields.forEach(unfold);
    fields[0].focus();
  }

  // In words, why a lift's max is likelier a slip than a max; nothing if it is not.
  function doubtOf(lift, numbers, reader) {
    var max = reader.max(lift.dataset.lift);
    var most = Number(lift.getAttribute("data-doubt-" + numbers.unit));
    var before = page.stored();
    if (before && before.unit !== numbers.unit && isSame(before.lifts[lift.dataset.lift], numbers.lifts[lift.dataset.lift])) {
      return words.sameDigits.replace("{}", before.unit);
    }
    if (!most || !max) return "";
    var mass = Number(max.split(" ")[0]);
    // The most is three times the example lifter's max.
    return (mass > most ? words.doubt : mass * 30 < most ? words.doubtLow : "").replace("{}", max);
  }

  function isSame(one, other) {
    return Boolean(one) && one.join(" ") === other.join(" ");
  }

  // Lifts to ask about, each with why, unless the reader has been asked about the same set before.
  function doubtful(numbers, reader) {
    return lifts.filter(isFilled).map(function (lift) {
      return [lift, doubtOf(lift, numbers, reader)];
    }).filter(function (asked) {
      var set = numbers.lifts[asked[0].dataset.lift].concat(numbers.unit).join(" ");
      var isNew = asked[1] && asked[0].dataset.sure !== set;
      asked[0].dataset.sure = set;
      return isNew;
    });
  }

  function workOut(event) {
    event.preventDefault();
    var numbers = checked();
    if (!numbers) return;
    page.reader(numbers).then(function (reader) {
      var asked = doubtful(numbers, reader).map(function (doubt) {
        return blame(doubt[0].querySelector("[name=load]"), doubt[0].querySelector(".said"), doubt[1]);
      });
      if (asked.length) turnTo(asked);
      else take(numbers);
    }, function () { take(numbers); });
  }

  function take(numbers) {
    var isKept = page.keep(numbers);
    page.show(numbers).then(function (reader) {
      if (!reader) return;
      tellMaxes(reader);
      status.textContent = words.done + (isKept ? "" : " " + words.notKept);
      seeLine.hidden = false;
    });
  }

  function clear() {
    absolve();
    form.reset();
    showUnit();
    linkLine.hidden = true;
    seeLine.hidden = true;
    page.keep(null);
    page.show(null);
    status.textContent = words.cleared;
  }

  function copyLink() {
    var numbers = checked();
    if (!numbers) return;
    var field = linkLine.querySelector("input");
    field.value = page.toLink(numbers);
    linkLine.hidden = false;
    field.focus();
    field.select();
    var copied = navigator.clipboard ? navigator.clipboard.writeText(field.value) : Promise.reject(new Error());
    copied.then(function () { status.textContent = words.copied; }, function () { status.textContent = words.select; });
  }

  function open() {
    place.open = true;
    place.scrollIntoView();
  }

  place.hidden = false;
  document.querySelectorAll("[data-own-jump]").forEach(function (item) { item.hidden = false; });
  showUnit();
  if (page.start) fill(page.start);
  page.shown.then(function (reader) { if (reader) tellMaxes(reader); });
  if (page.isFromLink) status.textContent = words.fromLink;
  form.addEventListener("submit", workOut);
  form.addEventListener("change", function (event) {
    if (event.target.name !== "unit") return;
    showUnit();
    var isTyped = lifts.some(isFilled) || (body && body.value.trim());
    status.textContent = isTyped ? words.unitNow.replace("{}", unit()) : "";
  });
  form.querySelector("[data-own-clear]").addEventListener("click", clear);
  form.querySelector("[data-own-copy]").addEventListener("click", copyLink);
  if (/^#your-numbers(\?|$)/.test(window.location.hash)) open();
})();
