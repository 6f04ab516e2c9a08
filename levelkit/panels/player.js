// Plays a film: one SVG whose moving elements carry data-part, and a table of their values.
// film = {svg, times [s], words, tracks: [[part, attribute or "text", value per frame], ...]}
// The kernel hears of a frame only when the picture comes to rest.
const PACES = [0.1, 0.25, 0.5, 1, 2, 5, 10, 20, 50];
const STILL_PACE = 500; // ms from picture to picture for a person who asked for less motion

const between = (a, b, share) => Math.round((a + (b - a) * share) * 100) / 100;

function setters(svg, tracks) {
  return tracks.map(([part, attribute, values]) => {
    const element = svg.querySelector(`[data-part="${part}"]`);
    if (attribute === "text") {
      return (near) => {
        if (element.textContent !== values[near]) element.textContent = values[near];
      };
    }
    return (near, low, high, share) => {
      const [a, b] = [values[low], values[high]];
      let value = values[near];
      if (share && typeof a === "number") value = between(a, b, share);
      else if (share && Array.isArray(a)) value = a.map((x, i) => between(x, b[i], share));
      element.setAttribute(attribute, Array.isArray(value) ? value.join(" ") : value);
    };
  });
}

function button(label, name, action) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = "jupyter-button";
  made.textContent = label;
  made.setAttribute("aria-label", name);
  made.addEventListener("click", action);
  return made;
}

function render({ model, el }) {
  el.classList.add("lk-player");
  const picture = document.createElement("div");
  const words = document.createElement("div");
  words.className = "lk-words";
  const bar = document.createElement("div");
  bar.className = "lk-playing";
  bar.setAttribute("role", "group");
  bar.setAttribute("aria-label", "Playing");
  const play = button("", "Play", () => (playing ? rest() : start()));
  const range = document.createElement("input");
  range.type = "range";
  range.min = 0;
  range.step = 1;
  range.setAttribute("aria-label", "Time");
  const clockText = document.createElement("span");
  clockText.className = "lk-time";
  const pace = document.createElement("select");
  pace.setAttribute("aria-label", "Speed");
  const back = button("\u25C2 step", "One step back", () => step(-1));
  const on = button("step \u25B8", "One step on", () => step(1));
  const first = button("start", "To the start", () => rest(0));
  bar.append(first, back, play, on, range, clockText, pace);
  el.append(picture, words, bar);

  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  let film, set, playing = false, time = 0, before = 0, shownAt = 0, request = 0, told = 0;

  const last = () => film.times.length - 1;
  function place(at) { // the frames on both sides of an instant, and how far between them
    let low = Math.min(Number(range.value), last());
    if (film.times[low] > at) low = 0;
    while (low < last() && film.times[low + 1] <= at) low += 1;
    const high = Math.min(low + 1, last());
    const apart = film.times[high] - film.times[low];
    return [low, high, apart > 0 ? (at - film.times[low]) / apart : 0];
  }
  function draw(low, high = low, share = 0) {
    const near = share < 0.5 ? low : high;
    for (const put of set) put(near, low, high, share);
    range.value = low;
    clockText.textContent = `${(time - film.times[0]).toFixed(1)} s`;
    range.setAttribute("aria-valuetext", clockText.textContent);
  }
  function show(frame) {
    time = film.times[frame];
    draw(frame);
    words.textContent = film.words[frame];
  }
  function label() {
    play.textContent = playing ? "\u275A\u275A pause" : "\u25B6 play";
    play.setAttribute("aria-label", playing ? "Pause" : "Play");
  }
  function rest(frame) { // stop, show a whole frame, tell the kernel
    playing = false;
    cancelAnimationFrame(request);
    label();
    if (frame === undefined) {
      const [low, high, share] = place(time);
      frame = share < 0.5 ? low : high;
    }
    show(frame);
    if (told !== frame) {
      told = frame;
      model.set("frame", frame);
      model.save_changes();
    }
  }
  function step(by) { rest(Math.max(0, Math.min(last(), Number(range.value) + by))); }
  function start() {
    if (time >= film.times[last()]) time = film.times[0];
    playing = true;
    label();
    words.textContent = "Playing. Pause to have the picture in words.";
    before = performance.now();
    request = requestAnimationFrame(tick);
  }
  function tick(now) {
    if (!playing) return;
    time += Math.max(0, now - before) / 1000 * Number(pace.value);
    before = now;
    const [begin, end] = [film.times[0], film.times[last()]];
    if (time >= end) {
      if (!model.get("repeats")) return rest(last());
      time = begin + (time - begin) % (end - begin);
    }
    if (!calm.matches) draw(...place(time));
    else if (now - shownAt >= STILL_PACE) {
      shownAt = now;
      draw(place(time)[0]);
    }
    request = requestAnimationFrame(tick);
  }
  function load() {
    film = model.get("film");
    told = model.get("frame");
    picture.innerHTML = film.svg;
    set = setters(picture.firstChild, film.tracks);
    range.max = last();
    bar.hidden = last() < 1;
    if (playing && last() > 0) draw(...place(Math.min(time, film.times[last()])));
    else rest(Math.min(told, last()));
  }
  function offerPaces() {
    const usual = model.get("pace");
    const offered = [...new Set([...PACES, usual])].sort((a, b) => a - b);
    pace.replaceChildren(...offered.map((value) => {
      const text = value === 1 ? "real time" : `${value} \u00D7 real time`;
      return new Option(text, value, value === usual, value === usual);
    }));
  }
  range.addEventListener("input", () => {
    if (playing) rest(Number(range.value));
    else show(Number(range.value));
  });
  range.addEventListener("change", () => rest(Number(range.value)));
  model.on("change:pace", offerPaces);
  model.on("change:film", load);
  model.on("change:frame", () => {
    const frame = model.get("frame");
    if (frame !== told && frame <= last()) {
      told = frame;
      rest(frame);
    }
  });
  offerPaces();
  label();
  load();
  return () => { playing = false; cancelAnimationFrame(request); };
}

export default { render };
