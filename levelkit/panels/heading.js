// The heading of a panel or card. It also keeps plain keys (arrows, Enter, space) for the controls:
// a notebook in command mode would take them for its own shortcuts.
function render({ model, el }) {
  const heading = document.createElement("h3");
  heading.className = "lk-title";
  el.append(heading);
  const show = () => { heading.textContent = model.get("text"); };
  model.on("change:text", show);
  show();
  const keep = (event) => {
    if (!event.ctrlKey && !event.metaKey && !event.altKey && event.key !== "Escape") {
      event.stopPropagation();
    }
  };
  requestAnimationFrame(() => {
    const panel = el.closest(".lk-panel");
    if (panel) panel.addEventListener("keydown", keep);
  });
}

export default { render };
