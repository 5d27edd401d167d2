/** A plain page that lists the HTTP interface, made from its OpenAPI description. */

type Operation = { readonly summary?: string };
type OpenApi = {
  readonly info: { readonly title: string; readonly version: string };
  readonly paths?: { readonly [path: string]: { readonly [method: string]: Operation } };
};

const html = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** The content policy names its digest: no other inline style is let through. */
export const API_PAGE_STYLE = `
body { font: 16px/1.5 system-ui, sans-serif; color: #222; background: #faf9f6; max-width: 60rem; margin: 2rem auto; padding: 0 1rem }
table { border-collapse: collapse; width: 100% }
th, td { text-align: left; padding: .4rem .6rem; border-bottom: 1px solid #d9d6ce; vertical-align: top }
a { color: #1d4f7c }
`;

export const apiPage = (openApi: OpenApi): string => {
  const rows = Object.entries(openApi.paths ?? {}).flatMap(([path, methods]) =>
    Object.entries(methods).map(
      ([method, operation]) =>
        `<tr><td><code>${html(method.toUpperCase())}</code></td><td><code>${html(path)}</code></td><td>${html(operation.summary ?? '')}</td></tr>`,
    ),
  );
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<link rel="icon" href="/icon.svg">
<title>${html(openApi.info.title)}: HTTP interface</title>
<style>${API_PAGE_STYLE}</style>
</head>
<body>
<h1>HTTP interface</h1>
<p>${html(openApi.info.title)} ${html(openApi.info.version)}. The full description, for tools, is <a href="/api/openapi.json">/api/openapi.json</a>
(OpenAPI). Live state comes over socket.io; <code>machines/live/protocol.ts</code> says what is said there.</p>
<table>
<thead><tr><th scope="col">Method</th><th scope="col">Path</th><th scope="col">What it does</th></tr></thead>
<tbody>${rows.join('\n')}</tbody>
</table>
</body>
</html>`;
};
