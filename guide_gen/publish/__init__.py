"""From plan and drawings to pages: templates, the site."""
