// A drawing as a file of its own: what the page's style sheet says is written into the elements, on white paper.

const kStyles = ["fill", "stroke", "stroke-linecap", "stroke-linejoin", "font-family"] as const;

function writeStyles(from: Element, to: Element): void {
  const style = getComputedStyle(from);
  for (const name of kStyles) to.setAttribute(name, style.getPropertyValue(name));
  // A style sheet's dashes win over the layer's own; what comes from the layer stays there.
  const dashes = style.getPropertyValue("stroke-dasharray");
  if (from.tagName === "path" && dashes !== "none") to.setAttribute("stroke-dasharray", dashes);
}

/** The text of an SVG file that shows what `svg` shows, in the light theme. */
export function svgFile(svg: SVGSVGElement, title: string): string {
  const shown = svg.cloneNode(true) as SVGSVGElement;
  const holder = document.createElement("div");
  holder.dataset.theme = "light";
  holder.style.cssText = "position:absolute;left:-10000px;top:0;width:100px;height:100px";
  holder.append(shown);
  document.body.append(holder);
  const file = shown.cloneNode(true) as SVGSVGElement;
  const from = [...shown.querySelectorAll("path, text, circle, rect")];
  const to = [...file.querySelectorAll("path, text, circle, rect")];
  from.forEach((element, i) => {
    writeStyles(element, to[i] as Element);
  });
  holder.remove();
  const box = svg.viewBox.baseVal;
  file.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  file.setAttribute("width", `${box.width}mm`);
  file.setAttribute("height", `${box.height}mm`);
  for (const name of ["class", "style", "tabindex"]) file.removeAttribute(name);
  const words = document.createElementNS("http://www.w3.org/2000/svg", "title");
  words.textContent = title;
  const paper = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  paper.setAttribute("width", "100%");
  paper.setAttribute("height", "100%");
  paper.setAttribute("fill", "#fff");
  file.prepend(words, paper);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${new XMLSerializer().serializeToString(file)}\n`;
}

/** The same as a PNG of so many dots to a millimetre. */
export async function pngFile(svgText: string, scale: number): Promise<Blob> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svgText)}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(image.naturalWidth * scale);
  canvas.height = Math.round(image.naturalHeight * scale);
  const context = canvas.getContext("2d");
  if (!context) throw new Error("this browser cannot draw a picture");
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) => {
    canvas.toBlob(
      (blob) => (blob ? resolve(blob) : reject(new Error("no picture came out"))),
      "image/png",
    );
  });
}
