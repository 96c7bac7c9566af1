package entry

func pilotKind() Kind {
	return Kind{
		Name: "pilot", Short: "add a pilot",
		Fields: []Field{
			handleField("yuki"),
			{Name: "name", Asks: "the full name", Example: "Yuki Lindqvist", Shape: Text, Optional: true, Brief: true},
			{Name: "club", Asks: "the club", Example: "Kestrel Aero Club", Shape: Text, Optional: true},
			{Name: "aircraft", Asks: "the aircraft", Example: "two-seat biplane, 200 hp", Shape: Text, Optional: true},
		},
		Write: func(s Scene) (Addition, error) {
			var t blockText
			t.line("pilot", s.One("handle"))
			for _, key := range []string{"name", "club", "aircraft"} {
				t.body(key, quoted(s.One(key)))
			}
			return Addition{Block: t.tidied(), Said: "pilot " + s.One("handle")}, nil
		},
	}
}

func coachKind() Kind {
	return Kind{
		Name: "coach", Short: "add a coach",
		Fields: []Field{
			handleField("agnes"),
			{Name: "name", Asks: "the full name", Example: "Agnes Oduya", Shape: Text, Optional: true, Brief: true},
		},
		Write: func(s Scene) (Addition, error) {
			var t blockText
			t.line("coach", s.One("handle")).body("name", quoted(s.One("name")))
			return Addition{Block: t.tidied(), Said: "coach " + s.One("handle")}, nil
		},
	}
}
