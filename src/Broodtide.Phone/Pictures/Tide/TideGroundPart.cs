namespace Broodtide.Phone.Pictures;

/// <summary>The three zones: full tints in the past, pale beyond now.</summary>
internal static class TideGroundPart
{
    public static void Draw(TideScene scene)
    {
        var fresh = scene.Y(scene.Record.Zones.FreshBelowPpt);
        var sea = scene.Y(scene.Record.Zones.SeaFromPpt);
        Band(scene, "fresh", scene.Sizes.Top, fresh);
        Band(scene, "shore", fresh, sea);
        Band(scene, "sea", sea, scene.BedY);
        scene.Add(new PathShape("pic-bound", new PathPen().Move(0, sea).Line(scene.Width, sea).ToString()));
    }

    private static void Band(TideScene scene, string zone, double top, double bottom)
    {
        if (scene.NowX > 0)
        {
            scene.Add(new BoxShape($"pic-{zone}", new(0, top, scene.NowX, bottom)));
        }

        if (scene.NowX < scene.Width)
        {
            scene.Add(new BoxShape($"pic-{zone}-far", new(scene.NowX, top, scene.Width, bottom)));
        }
    }
}
