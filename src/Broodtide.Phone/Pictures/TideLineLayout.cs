using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>
/// Lays a tide line out for a width: a record in, a picture out, nothing else known. The parts are drawn from the
/// ground up, the words last, in what room is left.
/// </summary>
public static class TideLineLayout
{
    public static Picture Lay(PictureText text, TideLineRecord record, TideFrame frame) =>
        Lay(new TideScene(text, record, frame));

    public static Picture Lay(TideScene scene)
    {
        TideGroundPart.Draw(scene);
        TideBroodPart.Nights(scene);
        TideKeelPart.Draw(scene);
        TideComingPart.Draw(scene);
        TideLinePart.Carrying(scene);
        TideBroodPart.Line(scene);
        TideDivePart.Draw(scene);
        TideLinePart.Behind(scene);
        TideLinePart.Rings(scene);
        TideMarksPart.Counts(scene);
        TideReadingsPart.Draw(scene);
        TideMarksPart.Ends(scene);
        TideMarksPart.Mind(scene);
        TideStagesPart.Draw(scene);
        TideEntriesPart.Draw(scene);
        TideBorderPart.Draw(scene);
        var flag = Now(scene);
        if (!scene.Frame.Small)
        {
            TideWordsPart.Draw(scene, flag);
        }

        return new(scene.Width, scene.Height, scene.Shapes, scene.Targets);
    }

    private static Box? Now(TideScene scene)
    {
        if (scene.IsEnded || !scene.InView(scene.Record.Now))
        {
            return null;
        }

        if (scene.Frame.Small)
        {
            var line = new PathPen().Move(scene.NowX, 0).Line(scene.NowX, scene.Height);
            scene.Add(new PathShape("pic-now", line.ToString()));
            return null;
        }

        var text = scene.Text.NowFlag(scene.Record, scene.IsWide);
        scene.Targets.Add(
            new(0, scene.NowX, scene.Sizes.Top - 12, scene.Record.Now, text, scene.Text.MadeAt(scene.Record))
        );
        return NowFlag.Draw(scene.Shapes, text, scene.NowX, scene.Sizes.Top, scene.BorderY, scene.Width);
    }
}
