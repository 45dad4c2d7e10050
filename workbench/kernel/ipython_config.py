"""Read by IPython in every kernel of this environment: makes the answer line of a lesson readable."""

c = get_config()  # noqa: F821 - IPython supplies it

# answer lines such as `travel = 3.25 mm` are read by workbench.answering
c.InteractiveShellApp.extensions.append("workbench.answering")
