// Note for every key press how long it took until a frame with a new picture was painted.
(watch) => {
  const probe = { times: [], pending: null };
  window.levelkitProbe = probe;
  const isPicture = (node) => node.nodeType === 1
    && (node.matches("svg, img") || node.querySelector("svg, img") !== null);
  window.addEventListener("keydown", () => { probe.pending = performance.now(); }, true);
  const observer = new MutationObserver((changes) => {
    const drawn = changes.some((change) => [...change.addedNodes].some(isPicture));
    if (probe.pending === null || !drawn) return;
    const start = probe.pending;
    probe.pending = null;
    requestAnimationFrame(() => {
      const channel = new MessageChannel(); // its message comes right after the frame
      channel.port1.onmessage = () => probe.times.push(performance.now() - start);
      channel.port2.postMessage(0);
    });
  });
  observer.observe(document.querySelector(watch), { childList: true, subtree: true });
}
