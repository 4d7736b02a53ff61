// An address that no page has.
import {html, render} from '/assets/vendored/lit-html/lit-html.js';

export default {
  async show(root, params, app) {
    app.head('No such page');
    render(html`<p>There is no page at this address. <a href="/">All trials</a></p>`, root);
  },
};
