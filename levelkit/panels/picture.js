// The picture of a panel. While a slider is in hand (has the focus), the kernel sends the pictures
// of the positions near it; a move then shows in the next frame and is confirmed by the kernel.
function render({ model, el }) {
  el.classList.add("lk-picture");
  let hand = null; // the slider in hand
  let shelf = new Map(); // value of that slider -> markup
  let serial = -1; // of the state for which the shelf was drawn
  let ahead = null; // value of the slider that the page shows before the kernel has answered
  let settle = 0;

  const ours = (range) => range.matches?.('.lk-control input[type="range"]')
    && el.isConnected && range.closest(".lk-panel") === el.closest(".lk-panel");
  function paint() {
    clearTimeout(settle);
    ahead = null;
    el.innerHTML = model.get("value");
  }
  function answered() { // the kernel's picture: late if the slider is already elsewhere
    if (ahead === null || hand === null) return paint();
    const drawn = model.get("of")[hand.dataset.name];
    if (Math.abs(drawn - ahead) < 1e-9) {
      clearTimeout(settle);
      ahead = null; // the page shows this picture already
    }
  }
  function moved(event) {
    if (event.target !== hand) return;
    const markup = shelf.get(Number(hand.value));
    if (markup === undefined) {
      ahead = null;
      return;
    }
    el.innerHTML = markup;
    ahead = Number(hand.value);
    clearTimeout(settle);
    settle = setTimeout(paint, 1000); // whatever was missed, the kernel's picture stands
  }
  function taken(event) {
    if (!ours(event.target)) return;
    hand = event.target;
    model.send({ hand: hand.dataset.name });
  }
  function left(event) {
    if (event.target !== hand) return;
    hand = null;
    shelf = new Map();
    model.send({ hand: null });
  }
  function stock(message) {
    if (hand === null || message.hand !== hand.dataset.name || message.serial < serial) return;
    if (message.serial > serial) shelf = new Map();
    serial = message.serial;
    for (const [value, markup] of message.pictures) shelf.set(value, markup);
  }
  const listeners = { focusin: taken, focusout: left, input: moved };
  for (const [name, listen] of Object.entries(listeners)) document.addEventListener(name, listen);
  model.on("change:value", answered);
  model.on("msg:custom", stock);
  paint();
  return () => {
    clearTimeout(settle);
    for (const [name, listen] of Object.entries(listeners)) {
      document.removeEventListener(name, listen);
    }
    model.off("change:value", answered);
    model.off("msg:custom", stock);
  };
}

export default { render };
