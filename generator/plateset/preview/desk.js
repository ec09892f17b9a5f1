// Shows the pages in a frame, keeps what stands around them up to date, and reloads them when they have changed.
"use strict";

const frame = document.getElementById("page");
const status = document.getElementById("status");
const problems = document.getElementById("problems");
const proof = document.getElementById("proof");
const fold = document.getElementById("fold");
const alone = document.getElementById("alone");
const PAGES = "/pages/";
const FIRST = decodeURIComponent(location.hash.slice(1)) || "index.html";
let shown = ""; // the edition the frame shows
let begun = false;

function current() {
  try {
    const path = frame.contentWindow.location.pathname;
    return path.startsWith(PAGES) ? decodeURIComponent(path.slice(PAGES.length)) || "index.html" : "index.html";
  } catch {
    return "index.html"; // the reader has followed a link to another site
  }
}

async function refresh() {
  if (!begun) return;
  const answer = await fetch("/desk/beside?page=" + encodeURIComponent(current()));
  const beside = await answer.json();
  status.textContent = beside.status;
  status.classList.toggle("wrong", !beside.sound);
  problems.innerHTML = beside.problems;
  problems.hidden = !beside.problems;
  proof.innerHTML = beside.proof;
  if (beside.edition !== shown) {
    shown = beside.edition;
    frame.contentWindow.location.reload();
  }
}

frame.addEventListener("load", () => {
  if (!begun) return; // the empty frame of the beginning
  const page = current();
  history.replaceState(null, "", "#" + page);
  alone.href = PAGES + page;
  let title = "";
  try { title = frame.contentDocument.title; } catch { /* another site */ }
  document.title = title ? "Preview: " + title : "Preview";
  refresh();
});

fold.addEventListener("click", () => {
  proof.hidden = !proof.hidden;
  fold.setAttribute("aria-expanded", String(!proof.hidden));
});

const news = new EventSource("/desk/news");
news.addEventListener("message", refresh);
news.addEventListener("error", () => {
  status.textContent = "The preview has ended, or cannot be reached.";
  status.classList.add("wrong");
});

async function start() {
  const answer = await fetch("/desk/beside");
  shown = (await answer.json()).edition;
  begun = true;
  frame.src = PAGES + FIRST;
}

start();
