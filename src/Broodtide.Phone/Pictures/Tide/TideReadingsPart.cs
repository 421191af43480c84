namespace Broodtide.Phone.Pictures;

/// <summary>In the nearest view: readings with their error on the line, and top-ups in millilitres.</summary>
internal static class TideReadingsPart
{
    public static void Draw(TideScene scene)
    {
        if (scene.Frame is not { Zoom: TideZoom.Days, Small: false } || scene.Main is not { } main)
        {
            return;
        }

        foreach (var reading in main.Readings.Where(one => scene.InView(one.At)))
        {
            var x = Math.Min(scene.X(reading.At), scene.NowX);
            var bar = new PathPen().Move(x, scene.Y(reading.Ppt.Low)).Line(x, scene.Y(reading.Ppt.High));
            scene.Add(new PathShape("pic-bar", bar.ToString()));
            var y = scene.Y(reading.Ppt.Middle);
            if (!reading.Fits)
            {
                scene.Add(new DiscShape("pic-mind-ring", x, y, 9));
            }

            scene.Add(new DiscShape(reading.Fits ? "pic-read" : "pic-ring pic-count", x, y, 3.4));
        }
    }

    public static void Words(TideScene scene, WordPlacer words)
    {
        if (scene.Frame is not { Zoom: TideZoom.Days, Small: false } || scene.Main is not { } main)
        {
            return;
        }

        foreach (var reading in main.Readings.Where(one => !one.Fits && scene.InView(one.At)))
        {
            var (x, y) = (scene.X(reading.At), scene.Y(reading.Ppt.Middle));
            words.TryPlace(
                [new(scene.Text.DoesNotFit, "pic-word pic-bold")],
                [
                    new(x + 14, y - 4, WordAnchor.Start),
                    new(x - 14, y - 4, WordAnchor.End),
                    new(x, y - 18, WordAnchor.Middle),
                    new(x - 8, y - 18, WordAnchor.End),
                ]
            );
        }

        foreach (var topUp in main.TopUps.Where(one => scene.InView(one.At) && one.At <= scene.Record.Now))
        {
            var x = scene.X(topUp.At);
            var y = scene.Y(scene.Salinity(main, topUp.At));
            words.TryPlace(
                [new(scene.Text.Millilitres(topUp.Millilitres), "pic-word")],
                [
                    new(x + 2, y - 6, WordAnchor.Start),
                    new(x - 2, y - 6, WordAnchor.End),
                    new(x, y - 20, WordAnchor.Middle),
                ]
            );
        }
    }
}
