using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>The marks of entries: line glyphs on a square of 24, one stroke, drawn about the line y = 12.</summary>
public static class Glyphs
{
    public static string Of(TideEntryMark mark) =>
        mark switch
        {
            TideEntryMark.Reading => "M12 5v14",
            TideEntryMark.TopUp => "M12 20V6m-5 5l5 -5l5 5",
            TideEntryMark.WaterChange => "M8 19V6m-3.6 3.6L8 6l3.6 3.6M16 5v13m-3.6 -3.6L16 18l3.6 -3.6",
            TideEntryMark.Fed => "M7 13v-4M12 15v-6M17 13v-4",
            TideEntryMark.Light => "M6.5 16a5.5 5.5 0 0 1 11 0M3 20h18M12 7V4M5.6 9.6L3.6 7.6M18.4 9.6l2 -2",
            TideEntryMark.Count =>
                "M12 3v4.6M12 16.4V21M9 3h6M9 21h6M16.4 12a4.4 4.4 0 1 1 -8.8 0a4.4 4.4 0 1 1 8.8 0",
            TideEntryMark.StageSample => "M5 8h14M5 12h10M5 16h6",
            TideEntryMark.Dead => "M7 7l10 10M17 7L7 17",
            TideEntryMark.Crossing => "M3 6h5c6 0 2 12 8 12h5",
            TideEntryMark.Moved => "M4 8h7v8h9",
            TideEntryMark.Settled => "M4 18h16M8 18c0 -5 8 -5 8 0",
            TideEntryMark.Returned => "M3 18h5c6 0 2 -12 8 -12h5",
            TideEntryMark.Photo => "M5 7h14v11H5zM9 12.5a3 3 0 1 0 6 0a3 3 0 1 0 -6 0",
            TideEntryMark.Note => "M6 5h12v9l-5 5H6zM13 19v-5h5",
            TideEntryMark.Ended => "M9 4v16M13.6 4v16M15 4v16",
            _ => "M8 8h8v8h-8z",
        };

    /// <summary>The stave a mark stands on: water, food or larvae.</summary>
    public static TideStave StaveOf(TideEntryMark mark) =>
        mark switch
        {
            TideEntryMark.Reading or TideEntryMark.TopUp or TideEntryMark.WaterChange => TideStave.Water,
            TideEntryMark.Fed or TideEntryMark.Light => TideStave.Food,
            _ => TideStave.Larvae,
        };
}

/// <summary>The three staves of the nearer views.</summary>
public enum TideStave
{
    Water,
    Food,
    Larvae,
}
