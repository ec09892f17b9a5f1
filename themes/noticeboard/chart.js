// Fetches the chart library from this copy of the site, and only when the reader asks for it.
(function () {
  "use strict";

  var button = document.querySelector("[data-explore]");
  var place = document.getElementById("explore");
  var words = document.getElementById("explore-words");
  var data = document.getElementById("explore-data");
  if (!button || !place || !words || !data) return;

  function inTheSiteInk(layout) {
    var style = window.getComputedStyle(document.body);
    var paint = function (name) { return style.getPropertyValue(name).trim(); };
    var axis = { gridcolor: paint("--hair"), linecolor: paint("--rule"), zerolinecolor: paint("--hair") };
    var clear = "rgba(0, 0, 0, 0)";
    return Object.assign({}, layout, {
      paper_bgcolor: clear,
      plot_bgcolor: clear,
      dragmode: false,
      colorway: [paint("--ink"), paint("--soft")],
      font: Object.assign({}, layout.font, { family: style.fontFamily, color: paint("--ink") }),
      hoverlabel: { bgcolor: paint("--paper"), bordercolor: paint("--rule"), font: { color: paint("--ink") } },
      xaxis: Object.assign({}, layout.xaxis, axis),
      yaxis: Object.assign({}, layout.yaxis, axis)
    });
  }

  function draw() {
    var figure = JSON.parse(data.textContent);
    var settings = {
      showSendToCloud: false,
      plotlyServerURL: "",
      displaylogo: false,
      displayModeBar: false,
      responsive: true
    };
    place.hidden = false;
    window.Plotly.newPlot(place, figure.data, inTheSiteInk(figure.layout || {}), settings);
    button.hidden = true;
    words.tabIndex = -1;
    words.focus();
    words.textContent = "Point at a line to read its figures. Choose a muscle's name to hide or show it.";
  }

  function sayMissing() {
    button.hidden = true;
    words.textContent = "The chart library is not in this copy of the site.";
  }

  function fetchLibrary() {
    var script = document.createElement("script");
    script.src = button.dataset.library;
    script.addEventListener("load", draw);
    script.addEventListener("error", sayMissing);
    document.head.appendChild(script);
  }

  button.addEventListener("click", function () {
    button.disabled = true;
    words.textContent = "Fetching the chart library.";
    if (window.Plotly) draw();
    else fetchLibrary();
  });
})();
