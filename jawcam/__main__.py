"""`python -m jawcam`."""

from jawcam.cli import main

if __name__ == "__main__":
    main()
