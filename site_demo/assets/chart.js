// Fetches the chart library from this copy of the site, and only when the reader asks for it.
(function () {
  "use strict";

  var button = document.querySelector("[data-explore]");
  var place = document.getElementById("explore");
  var words = document.getElementById("explore-words");
  var data = document.getElementById("explore-data");
  if (!button || !place || !words || !data) return;

  var style = window.getComputedStyle(document.body);
  var dashes = ["solid", "dash", "dot", "dashdot", "longdash", "longdashdot"];
  var symbols = ["circle", "square", "diamond", "cross", "triangle-up", "x", "triangle-down"];

  // The site's colours may be mixtures, which the chart library cannot read: have the browser paint one and look.
  function paint(name) {
    var context = document.createElement("canvas").getContext("2d");
    context.fillStyle = style.getPropertyValue(name).trim();
    context.fillRect(0, 0, 1, 1);
    return "rgb(" + Array.from(context.getImageData(0, 0, 1, 1).data.slice(0, 3)).join(", ") + ")";
  }

  // Lines are told apart by dash and sign as well as by ink.
  function drawnApart(trace, index) {
    return Object.assign({}, trace, {
      line: Object.assign({ dash: dashes[index % dashes.length] }, trace.line),
      marker: Object.assign({ symbol: symbols[index % symbols.length], size: 8 }, trace.marker)
    });
  }

  function inTheSiteInk(layout) {
    var axis = { gridcolor: paint("--hair"), linecolor: paint("--rule"), zerolinecolor: paint("--hair") };
    var hover = { bgcolor: paint("--paper"), bordercolor: paint("--rule"), font: { color: paint("--ink") } };
    var narrow = place.clientWidth < 600;
    var clear = "rgba(0, 0, 0, 0)";
    return Object.assign({}, layout, {
      paper_bgcolor: clear,
      plot_bgcolor: clear,
      dragmode: false,
      height: narrow ? 680 : 520,
      colorway: [paint("--mark"), paint("--ink"), paint("--soft")],
      font: Object.assign({}, layout.font, { family: style.fontFamily, color: paint("--ink") }),
      legend: narrow ? { orientation: "h", y: -0.14 } : {},
      hoverlabel: hover,
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
    window.Plotly.newPlot(place, figure.data.map(drawnApart), inTheSiteInk(figure.layout || {}), settings);
    button.hidden = true;
    words.tabIndex = -1;
    words.focus();
    words.textContent = button.dataset.ready;
  }

  function sayMissing() {
    button.hidden = true;
    words.textContent = button.dataset.missing;
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
    words.textContent = button.dataset.fetching;
    if (window.Plotly) draw();
    else fetchLibrary();
  });
})();
