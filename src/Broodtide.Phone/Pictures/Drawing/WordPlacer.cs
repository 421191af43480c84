namespace Broodtide.Phone.Pictures;

/// <summary>One line of a block of words.</summary>
public sealed record WordLine(string Text, string Class);

/// <summary>A place to try: the point of the first line's base.</summary>
public readonly record struct WordPlace(double X, double Y, WordAnchor Anchor);

/// <summary>
/// Places words in order of their worth: each takes the first of its places where it hits nothing placed before it,
/// no line it must leave alone, and stays inside the picture. A word that fits nowhere is left out; it is told in the
/// list beside the picture.
/// </summary>
public sealed class WordPlacer(double width, double height)
{
    private const double Air = 4;
    private const double Ascent = 10;
    private const double Descent = 3.5;
    private const double LineHeight = 15;

    private readonly List<Box> _taken = [];

    public List<WordShape> Placed { get; } = [];

    /// <summary>Gives the class of the halo behind a word, by its place.</summary>
    public Func<double, double, string> HaloAt { get; init; } = static (_, _) => "";

    /// <summary>Words must keep clear of this box.</summary>
    public void Avoid(Box box) => _taken.Add(box);

    /// <summary>A word at a fixed place, placed whatever it meets.</summary>
    public void Fixed(WordLine line, WordPlace place) => Take([Line(line, place, 0)]);

    /// <summary>The first place that fits takes the block; false when none does.</summary>
    public bool TryPlace(IReadOnlyList<WordLine> block, IEnumerable<WordPlace> places)
    {
        foreach (var place in places)
        {
            var lines = block.Select((line, index) => Line(line, place, index)).ToList();
            var box = lines.Select(line => line.Box).Aggregate((a, b) => a.Joined(b));
            if (IsFree(box))
            {
                Take(lines);
                return true;
            }
        }

        return false;
    }

    public bool IsFree(Box box)
    {
        var inside =
            box.Left >= Air && box.Right <= width - Air && box.Top >= Air && box.Bottom <= height - Air;
        var grown = box.Grown(Air);
        return inside && !_taken.Exists(grown.Hits);
    }

    public static Box BoxOf(WordLine line, WordPlace place)
    {
        var wide = WordWidths.Of(line.Text, line.Class);
        var left = place.Anchor switch
        {
            WordAnchor.Start => place.X,
            WordAnchor.Middle => place.X - (wide / 2),
            _ => place.X - wide,
        };
        return new(left, place.Y - Ascent, left + wide, place.Y + Descent);
    }

    private WordShape Line(WordLine line, WordPlace place, int index)
    {
        var at = place with { Y = place.Y + (index * LineHeight) };
        var halo = HaloAt(at.X, at.Y);
        var cssClass = halo.Length == 0 ? line.Class : $"{line.Class} {halo}";
        return new(cssClass, line.Text, at.X, at.Y, at.Anchor, BoxOf(line, at));
    }

    private void Take(List<WordShape> lines)
    {
        foreach (var line in lines)
        {
            _taken.Add(line.Box);
            Placed.Add(line);
        }
    }
}
