using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>What was written: ticks over the whole run, glyphs on three staves when nearer.</summary>
internal static class TideEntriesPart
{
    private const double GlyphsApart = 13;

    public static void Draw(TideScene scene)
    {
        if (scene.Frame.Small)
        {
            return;
        }

        if (scene.Frame.Zoom == TideZoom.WholeRun)
        {
            Ticks(scene);
        }
        else
        {
            Staves(scene);
        }
    }

    // An entry from a clock that runs ahead stands at now.
    private static double Place(TideScene scene, TideEntry entry) =>
        scene.X(entry.At > scene.Record.Now ? scene.Record.Now : entry.At);

    private static void Ticks(TideScene scene)
    {
        var stacks = new SortedDictionary<int, int>();
        foreach (
            var x in scene
                .Record.Entries.Select(entry => Place(scene, entry))
                .Where(x => x >= 0 && x <= scene.Width)
        )
        {
            var slot = (int)(x / 3);
            stacks[slot] = stacks.GetValueOrDefault(slot) + 1;
        }

        var floor = scene.BorderY - 7;
        var pen = new PathPen();
        foreach (var (slot, count) in stacks)
        {
            var x = Math.Min((slot * 3) + 1.5, scene.Width - 1);
            pen.Move(x, floor).Line(x, floor - (Math.Min(4, count) * 2.6) - 1);
        }

        if (!pen.IsEmpty)
        {
            scene.Add(new PathShape("pic-entry", pen.ToString()));
        }
    }

    private static void Staves(TideScene scene)
    {
        foreach (var stave in Enum.GetValues<TideStave>())
        {
            var y = StaveY(scene, stave);
            scene.Add(new PathShape("pic-rule", new PathPen().Move(0, y).Line(scene.Width, y).ToString()));
            var ticks = new PathPen();
            var last = double.MinValue;
            foreach (
                var entry in scene
                    .Record.Entries.Where(one => Glyphs.StaveOf(one.Mark) == stave)
                    .OrderBy(one => one.At)
            )
            {
                var x = Place(scene, entry);
                if (x < 9 || x > scene.Width - 9)
                {
                    continue;
                }

                if (x - last < GlyphsApart)
                {
                    ticks.Move(x, y - 3).Line(x, y + 3);
                }
                else
                {
                    last = x;
                    scene.Add(new BoxShape("pic-glyph-ground", new(x - 8, y - 8, x + 8, y + 8)));
                    scene.Add(new GlyphShape("pic-glyph-line", Glyphs.Of(entry.Mark), x, y, 0.7));
                }

                scene.Targets.Add(
                    new(
                        1,
                        x,
                        y,
                        entry.At,
                        scene.Text.Entry(entry.Mark),
                        scene.Text.EntryDetail(scene.Record, entry)
                    )
                );
            }

            if (!ticks.IsEmpty)
            {
                scene.Add(new PathShape("pic-entry", ticks.ToString()));
            }
        }
    }

    public static double StaveY(TideScene scene, TideStave stave) =>
        scene.StageBottom + 2 + (((int)stave + 0.5) * TideScene.StaveHeight);
}
