# Words of the page.
