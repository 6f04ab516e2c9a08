// Time from a key press on a focused control to the frame in which its picture has changed.
// `watch` is a selector of the element whose picture changes.
async ({ watch, keys, gap }) => {
  const target = document.querySelector(watch);
  const painted = () => new Promise((resolve) => requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => resolve(performance.now());
    channel.port2.postMessage(0);
  }));
  window.levelkitProbe = { times: [], pending: null };
  const probe = window.levelkitProbe;
  document.addEventListener("keydown", () => { probe.pending = performance.now(); }, true);
  new MutationObserver(() => {
    if (probe.pending === null) return;
    const start = probe.pending;
    probe.pending = null;
    painted().then((end) => probe.times.push(end - start));
  }).observe(target, { childList: true, subtree: true, attributes: true, characterData: true });
}
