// The picture of a panel. While a slider is in hand (has the focus), the kernel sends the pictures
// of the positions near it; a move then shows in the next frame and is confirmed by the kernel.
function render({ model, el }) {
  el.classList.add("lk-picture");
  let hand = null; // the slider in hand
  let shelf = new Map(); // value of that slider -> markup
  let serial = -1; // of the state for which the shelf was drawn
  let turn = 0; // counts the moves of the slider in hand
  let shown = 0; // the move to which the picture on the page belongs
  const turns = new Map(); // value of the slider -> the last move to it
  let early = false; // whether that picture was shown before the kernel had answered

  const ours = (range) => range.matches?.('.lk-control input[type="range"]')
    && el.isConnected && range.closest(".lk-panel") === el.closest(".lk-panel");
  function paint() {
    el.innerHTML = model.get("value");
  }
  function answered() { // the kernel's picture: perhaps late, perhaps on the page already
    const of = hand === null ? undefined : turns.get(model.get("of")[hand.dataset.name]);
    if (of < shown) return;
    if (of !== shown || !early) paint();
    shown = of ?? shown;
    early = false;
  }
  function moved(event) {
    if (event.target !== hand) return;
    const value = Number(hand.value);
    turn += 1;
    turns.set(value, turn);
    const markup = shelf.get(value);
    if (markup === undefined) return;
    el.innerHTML = markup;
    shown = turn;
    early = true;
  }
  function taken(event) {
    if (!ours(event.target)) return;
    hand = event.target;
    turns.clear();
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
    for (const [name, listen] of Object.entries(listeners)) {
      document.removeEventListener(name, listen);
    }
    model.off("change:value", answered);
    model.off("msg:custom", stock);
  };
}

export default { render };
