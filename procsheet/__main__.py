from procsheet.cli import main

raise SystemExit(main())
