// Tells a picture how wide its place is, now and whenever that changes.
export function watchWidth(element, picture) {
  const tell = () => picture.invokeMethodAsync('Resized', Math.floor(element.clientWidth));
  const observer = new ResizeObserver(tell);
  observer.observe(element);
  tell();
  return { stop: () => observer.disconnect() };
}
