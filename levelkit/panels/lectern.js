// Presents a notebook: large type, code hidden, one cell more at each press of a key.
// The switch stands in the notebook's own tool bar; each notebook on the page has one.
const KEYS = { PageDown: 1, PageUp: -1 }; // what a hand-held presenter sends

function make(tag, text = "", attributes = {}) {
  const made = document.createElement(tag);
  made.textContent = text;
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}

function button(text, action) {
  const made = make("button", text, { type: "button", class: "lk-lectern-button" });
  made.addEventListener("click", action);
  return made;
}

function clock(seconds) {
  return `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, "0")}`;
}

class Presentation {
  constructor(notebook) {
    this.notebook = notebook; // the panel that holds tool bar and cells
    this.model = null;
    this.step = 0;
    this.began = 0; // performance.now() [ms] at which the clock stood at zero
    this.switch = button("Present this lesson", () => this.start());
    this.switch.title = "Large type, code hidden, step by step. Page Down goes on, Page Up back";
    const tools = notebook.querySelector(".jp-NotebookPanel-toolbar");
    (tools || notebook).append(this.switch);
    this.onKey = (event) => this.key(event);
    this.onScreen = () => {
      this.whole.hidden = Boolean(document.fullscreenElement);
      dispatchEvent(new Event("resize")); // the page lays its parts out anew
      if (!this.bar.hidden) this.show();
    };
    this.buildBar();
  }

  buildBar() {
    this.bar = make("div", "", { role: "group", "aria-label": "Presentation", class: "lk-lectern" });
    this.bar.hidden = true;
    this.back = button("\u25C2 Back", () => this.go(-1));
    this.next = button("Next \u25B8", () => this.go(1));
    this.where = make("span", "", { role: "status", class: "lk-lectern-where" });
    this.time = make("span", "", { role: "timer", "aria-live": "off", class: "lk-lectern-time" });
    this.whole = button("Whole screen", () => this.fillScreen());
    this.bar.append(this.back, this.next, this.where, this.time,
      button("Clock to zero", () => { this.began = performance.now(); this.tick(); }),
      button("Notes", () => this.openNotes()), this.whole, button("End", () => this.end()));
    this.bar.addEventListener("keydown", (event) => {
      if (!event.ctrlKey && !event.metaKey && !event.altKey && event.key !== "Escape"
          && !(event.key in KEYS)) event.stopPropagation();
    });
    this.notebook.append(this.bar);
    this.notebook.addEventListener("fullscreenchange", this.onScreen);
  }

  serve(model) {
    this.model = model;
    model.on("change:notes", () => { this.tick(); this.showNotes(); });
    const title = this.notebook.querySelector("h1")?.textContent || "";
    const number = /^\s*(\d\d)/.exec(title);
    if (number) model.send({ lesson: number[1] });
    if (!this.bar.hidden) this.tell(true);
  }

  tell(presenting) {
    this.model.set("presenting", presenting);
    this.model.save_changes();
  }

  // A step is a cell that shows something when code is hidden.
  steps() {
    return [...this.notebook.querySelectorAll(".jp-Notebook .jp-Cell")].filter((cell) =>
      cell.classList.contains("jp-MarkdownCell") || cell.querySelector(".jp-OutputArea-output"));
  }

  nameOf(cell) {
    const named = cell?.querySelector("h1, h2, h3");
    const text = (named || cell)?.textContent.replace("\u00B6", "").trim() || "";
    return text.length > 60 ? `${text.slice(0, 58)}\u2026` : text;
  }

  fillScreen() { // a window of notes that opens takes the whole screen back: hence a button too
    this.notebook.requestFullscreen?.().catch(() => {}); // refused: the lesson goes on in the page
  }

  start() {
    this.step = 0;
    this.began = performance.now();
    this.notebook.classList.add("lk-presenting");
    this.bar.hidden = false;
    this.tell(true);
    document.addEventListener("keydown", this.onKey, true);
    this.ticking = setInterval(() => this.tick(), 1000);
    this.fillScreen();
    this.show();
    this.next.focus();
  }

  end() {
    clearInterval(this.ticking);
    document.removeEventListener("keydown", this.onKey, true);
    if (document.fullscreenElement) document.exitFullscreen();
    this.notebook.classList.remove("lk-presenting");
    this.bar.hidden = true;
    for (const cell of this.notebook.querySelectorAll(".lk-later")) {
      cell.classList.remove("lk-later");
    }
    this.tell(false);
    dispatchEvent(new Event("resize"));
    if (this.window && !this.window.closed) this.window.close();
    this.switch.focus();
  }

  key(event) {
    if (!this.notebook.isConnected) return document.removeEventListener("keydown", this.onKey, true);
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    const typing = event.target.matches?.("input, textarea, select, [contenteditable=true]");
    if (event.key in KEYS) this.go(KEYS[event.key]);
    else if (event.key === "Escape" && !typing) this.end();
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  go(by) {
    this.step = Math.max(0, Math.min(this.steps().length - 1, this.step + by));
    this.show();
  }

  show() {
    const steps = this.steps();
    const shown = new Set(steps.slice(0, this.step + 1));
    for (const cell of this.notebook.querySelectorAll(".jp-Notebook .jp-Cell")) {
      cell.classList.toggle("lk-later", !shown.has(cell));
    }
    this.toTop(steps).scrollIntoView({ block: "start" });
    this.where.textContent = `${this.step + 1} of ${steps.length}: ${this.nameOf(steps[this.step])}`;
    this.back.disabled = this.step === 0;
    this.next.disabled = this.step === steps.length - 1;
    this.tick();
  }

  // The step itself, or what led up to it where both have room on the screen.
  toTop(steps) {
    const cell = steps[this.step], before = steps[this.step - 1];
    const room = this.bar.getBoundingClientRect().top - this.notebook.getBoundingClientRect().top;
    return before && before.offsetHeight + cell.offsetHeight < room ? before : cell;
  }

  tick() {
    const passed = (performance.now() - this.began) / 1000;
    const planned = this.model?.get("notes").minutes;
    this.time.textContent = planned ? `${clock(passed)} of ${planned}:00` : clock(passed);
    this.time.classList.toggle("lk-over", Boolean(planned) && passed > 60 * planned);
    this.showPlace(passed / 60);
  }

  openNotes() {
    this.window = window.open("", "levelkit-notes", "popup,width=780,height=900");
    if (!this.window) {
      this.where.textContent = "The browser has stopped the window of notes. Allow it, press Notes again.";
      return;
    }
    this.window.addEventListener("keydown", this.onKey, true);
    this.showNotes();
    this.tick();
  }

  showNotes() {
    if (!this.window || this.window.closed) return;
    const page = this.window.document;
    page.title = "Notes for the lecturer";
    page.head.innerHTML = `<style>
      body { font: 17px/1.45 'DejaVu Sans', 'Segoe UI', sans-serif; margin: 0; color: #17212b; }
      header { position: sticky; top: 0; background: #dfe7ed; padding: 8px 16px; font-weight: 600; }
      main { padding: 4px 16px 40px; } table { border-collapse: collapse; }
      td, th { border: 1px solid #c3cbd2; padding: 3px 8px; text-align: left; vertical-align: top; }
      .now td { background: #f3e3d8; font-weight: 600; }</style>`;
    page.body.innerHTML = `<header></header><main>${this.model.get("notes").page || ""}</main>`;
  }

  // Says in the window of notes where the lesson is, and marks the row that the clock has reached.
  showPlace(minutes) {
    if (!this.window || this.window.closed) return;
    const page = this.window.document, steps = this.steps();
    const next = steps[this.step + 1];
    const head = page.querySelector("header");
    if (head) {
      head.textContent = `${this.time.textContent} \u00B7 ${this.where.textContent}`
        + (next ? ` \u00B7 next: ${this.nameOf(next)}` : " \u00B7 the last");
    }
    let until = 0, found = false;
    for (const row of page.querySelectorAll("main table:first-of-type tbody tr")) {
      until += Number(row.cells[0].textContent) || 0;
      row.classList.toggle("now", !found && minutes < until);
      found = found || minutes < until;
    }
  }
}

function render({ model, el }) {
  requestAnimationFrame(() => {
    const notebook = el.closest(".jp-NotebookPanel");
    if (!notebook) return; // an export or another front end: the lesson stays as it is
    notebook.levelkitPresentation ||= new Presentation(notebook);
    if (notebook.levelkitPresentation.model !== model) notebook.levelkitPresentation.serve(model);
  });
}

export default { render };
