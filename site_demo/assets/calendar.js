// Puts the reader's own dates on the sessions of a program and saves them as a calendar file. The lines of every session
// are prepared in the page; here each gets its date, and all are joined. Nothing leaves the browser.
(function () {
  "use strict";

  var DAY = 24 * 60 * 60 * 1000;

  // Dates are counted in UTC, where every day has 24 hours; the file names no zone.
  function readDate(text) {
    var parts = text.split("-").map(Number);
    return new Date(Date.UTC(parts[0], parts[1] - 1, parts[2]));
  }

  function plusDays(date, days) {
    return new Date(date.getTime() + days * DAY);
  }

  function compact(date) {
    return date.toISOString().slice(0, 10).replace(/-/g, "");
  }

  // Monday is 0 in the data, Sunday is 0 in the browser. Where days are counted there is no weekday to wait for.
  function firstDay(start, weekday) {
    return weekday === null ? start : plusDays(start, (weekday + 8 - start.getUTCDay()) % 7);
  }

  function datedLines(day, minutes, time) {
    if (!time) return "DTSTART;VALUE=DATE:" + compact(day) + "\r\n";
    var start = compact(day) + "T" + time.replace(":", "").slice(0, 4) + "00";
    return "DTSTART:" + start + "\r\nDURATION:PT" + minutes + "M\r\n";
  }

  function calendar(data, first, time) {
    var stamp = "DTSTAMP:" + new Date().toISOString().slice(0, 19).replace(/[-:]/g, "") + "Z\r\n";
    var events = data.events.map(function (event) {
      var dated = datedLines(plusDays(first, event[0]), event[1], time);
      return "BEGIN:VEVENT\r\n" + event[2] + stamp + dated + "END:VEVENT\r\n";
    });
    return data.open + events.join("") + data.close;
  }

  function save(text, name) {
    var address = URL.createObjectURL(new Blob([text], { type: "text/calendar;charset=utf-8" }));
    var link = document.createElement("a");
    link.href = address;
    link.download = name;
    document.body.appendChild(link);
    link.click();
    link.remove();
    window.setTimeout(function () { URL.revokeObjectURL(address); }, 10000);
  }

  function inWords(date) {
    var language = document.documentElement.lang;
    if (language === "en") language = "en-GB"; // the site's own dates: 11 January 2027
    return date.toLocaleDateString(language, { weekday: "long", day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });
  }

  function setUp(maker) {
    var data = JSON.parse(maker.querySelector("script").textContent);
    var date = maker.querySelector("input[type=date]");
    var time = maker.querySelector("input[type=time]");
    var said = maker.querySelector("[role=status]");

    maker.querySelector("button").addEventListener("click", function () {
      if (!date.value || !date.validity.valid) {
        date.setAttribute("aria-invalid", "true");
        said.textContent = maker.dataset.ask;
        date.focus();
        return;
      }
      date.removeAttribute("aria-invalid");
      var first = firstDay(readDate(date.value), data.weekday);
      save(calendar(data, first, time.value), maker.dataset.file);
      var opening = plusDays(first, data.events[0][0]);
      said.textContent = maker.dataset.done.replace("{count}", data.events.length).replace("{date}", inWords(opening));
    });
  }

  document.querySelectorAll("[data-calendar]").forEach(setUp);
})();
