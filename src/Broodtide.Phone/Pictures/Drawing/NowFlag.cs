namespace Broodtide.Phone.Pictures;

/// <summary>The line of now with its flag: an ink tag with a notch, kept inside both edges.</summary>
public static class NowFlag
{
    private const double Inset = 4;
    private const double Height = 16;

    /// <summary>Draws the flag above <paramref name="top"/> and the line down to <paramref name="bottom"/>; returns the tag's box.</summary>
    public static Box Draw(List<Shape> shapes, string text, double x, double top, double bottom, double width)
    {
        var line = new WordLine(text, "pic-flag-word pic-bold");
        var half = (WordWidths.Of(text, line.Class) / 2) + 7;
        var middle = Math.Clamp(x, half + Inset, width - half - Inset);
        var tagTop = top - 22;
        var tagBottom = tagTop + Height;
        var notch = Math.Clamp(x, middle - half + 6, middle + half - 6);
        shapes.Add(new PathShape("pic-now", new PathPen().Move(x, top - 4).Line(x, bottom).ToString()));
        var tag = new PathPen()
            .Move(middle - half, tagTop)
            .Line(middle + half, tagTop)
            .Line(middle + half, tagBottom)
            .Line(notch + 5, tagBottom)
            .Line(x, tagBottom + 6)
            .Line(notch - 5, tagBottom)
            .Line(middle - half, tagBottom)
            .Close();
        shapes.Add(new PathShape("pic-ink", tag.ToString()));
        var place = new WordPlace(middle, tagTop + 12.4, WordAnchor.Middle);
        shapes.Add(
            new WordShape(line.Class, text, place.X, place.Y, place.Anchor, WordPlacer.BoxOf(line, place))
        );
        return new(middle - half, tagTop, middle + half, tagBottom);
    }
}
