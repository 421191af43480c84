namespace Broodtide.Phone.Pictures;

/// <summary>The time border, weeks or days filled and open in turn, and the dates under it.</summary>
internal static class TideBorderPart
{
    private const double DatesApart = 11;

    public static void Draw(TideScene scene)
    {
        if (scene.Frame.Small)
        {
            return;
        }

        TimeBorder.Draw(
            scene.Text,
            scene.Shapes,
            new(scene.View.From, scene.View.To, scene.Record.Zone, scene.Width, scene.BorderY),
            scene.Frame.Zoom == TideZoom.Days || (scene.View.To - scene.View.From).TotalDays < 14,
            DatesApart
        );
    }
}
