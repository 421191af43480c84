using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>The stages of those alive now: one strip in the order of the stages, as wide as their shares.</summary>
public static class StagesNowLayout
{
    private const double Height = 40;
    private const double NameY = 17;
    private const double ShareY = 33;
    private const double LeastShare = 0.005;
    private const double Beside = 3;

    /// <param name="spoken">How numbers are written.</param>
    /// <param name="names">The stages, in their order.</param>
    /// <param name="shares">The share in each, sum 1.</param>
    /// <param name="width">How wide, in CSS pixels.</param>
    public static Picture Lay(
        PictureText spoken,
        IReadOnlyList<TideStage> names,
        IReadOnlyList<double> shares,
        double width
    )
    {
        var shapes = new List<Shape>();
        var shown = names
            .Zip(shares)
            .Select((pair, place) => (Stage: pair.First, Share: pair.Second, Place: place))
            .Where(one => one.Share >= LeastShare)
            .ToList();
        var total = shown.Sum(one => one.Share);
        var bounds = new PathPen();
        double left = 0;
        foreach (var (stage, share, place) in shown)
        {
            var right = left + (width * share / total);
            var box = new Box(left, 0, right, Height);
            var turn = place % 2 == 0 ? "pic-stage-a" : "pic-stage-b";
            shapes.Add(new BoxShape(stage.BottomLiving ? "pic-stage-post" : turn, box));
            if (left > 0)
            {
                bounds.Move(left, 0).Line(left, Height);
            }

            Words(spoken, shapes, stage, share, box);
            left = right;
        }

        if (!bounds.IsEmpty)
        {
            shapes.Add(new PathShape("pic-stage-bound", bounds.ToString()));
        }

        shapes.Add(
            new PathShape(
                "pic-bed",
                new PathPen().Move(0, 0).Line(width, 0).Move(0, Height).Line(width, Height).ToString()
            )
        );
        return new(width, Height, shapes, []);
    }

    // Slivers stay without words: they stand in the list.
    private static void Words(PictureText spoken, List<Shape> shapes, TideStage stage, double share, Box room)
    {
        var name = new WordLine(stage.Name, "pic-word pic-bold");
        var part = new WordLine($"{spoken.PerCent(share)} %", "pic-word pic-slant");
        var middle = (room.Left + room.Right) / 2;
        WordPlace[] places = [new(middle, NameY, WordAnchor.Middle), new(middle, ShareY, WordAnchor.Middle)];
        foreach (var (line, place) in new[] { name, part }.Zip(places))
        {
            var box = WordPlacer.BoxOf(line, place);
            if (box.Left < room.Left + Beside || box.Right > room.Right - Beside)
            {
                return;
            }

            shapes.Add(new WordShape(line.Class, line.Text, place.X, place.Y, place.Anchor, box));
        }
    }
}
