// Counts in the browser: the kernel says start or stop and hears nothing while the clock runs.
// course = {running, elapsed [s] at the time of saying, began [s since the epoch, running only]}
const PERIOD = 250; // ms

function clock(seconds) {
  const whole = Math.floor(Math.max(0, seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

function render({ model, el }) {
  el.classList.add("lk-timer");
  el.setAttribute("role", "timer");
  el.setAttribute("aria-live", "off");
  const left = document.createElement("b");
  const passed = document.createElement("span");
  const word = document.createElement("span");
  word.setAttribute("role", "status"); // said once, when the time is up
  el.append(left, passed, word);
  let zero = 0, ticking = 0;

  function show() {
    const course = model.get("course");
    const elapsed = course.running ? (performance.now() - zero) / 1000 : course.elapsed;
    const over = elapsed - model.get("limit");
    left.textContent = over < 0 ? `${clock(Math.ceil(-over))} left` : `${clock(over)} over`;
    passed.textContent = ` \u00b7 ${clock(elapsed)} taken`;
    const said = over < 0 ? "" : " \u00b7 time is up";
    if (word.textContent !== said) word.textContent = said;
    el.classList.toggle("lk-over", over >= 0);
  }
  function follow(elapsed) {
    clearInterval(ticking);
    zero = performance.now() - 1000 * elapsed;
    if (model.get("course").running) ticking = setInterval(show, PERIOD);
    show();
  }
  model.on("change:course", () => follow(model.get("course").elapsed));
  model.on("change:limit", show);
  const { running, elapsed, began } = model.get("course");
  follow(running ? Math.max(0, Date.now() / 1000 - began) : elapsed); // a page opened again
  return () => clearInterval(ticking);
}

export default { render };
