namespace Broodtide.Phone.Pictures;

/// <summary>A hatch that fills a shape; what each means is fixed by the drawing rules.</summary>
public enum Hatch
{
    None,

    /// <summary>Larvae to come or in doubt.</summary>
    Keel,

    /// <summary>A move to come: the other way, wider.</summary>
    Move,

    /// <summary>Laid over the stages to come.</summary>
    Veil,

    /// <summary>The forbidden side of a limit.</summary>
    Forbidden,
}

/// <summary>Where a word stands against its point.</summary>
public enum WordAnchor
{
    Start,
    Middle,
    End,
}

/// <summary>A rectangle in the picture, in CSS pixels.</summary>
public readonly record struct Box(double Left, double Top, double Right, double Bottom)
{
    public Box Grown(double by) => new(Left - by, Top - by, Right + by, Bottom + by);

    public bool Hits(Box other) =>
        Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    public Box Joined(Box other) =>
        new(
            Math.Min(Left, other.Left),
            Math.Min(Top, other.Top),
            Math.Max(Right, other.Right),
            Math.Max(Bottom, other.Bottom)
        );
}

/// <summary>One thing to draw; its class gives its colours and strokes.</summary>
public abstract record Shape(string Class);

/// <summary>A path, in the letters of SVG.</summary>
public sealed record PathShape(string Class, string Data, Hatch Fill = Hatch.None) : Shape(Class);

/// <summary>A rectangle.</summary>
public sealed record BoxShape(string Class, Box Box, Hatch Fill = Hatch.None) : Shape(Class);

/// <summary>A disc or ring.</summary>
public sealed record DiscShape(string Class, double X, double Y, double Radius) : Shape(Class);

/// <summary>A word with the box it takes.</summary>
public sealed record WordShape(string Class, string Text, double X, double Y, WordAnchor Anchor, Box Box)
    : Shape(Class);

/// <summary>A glyph of 24 pixels, drawn with its middle at a point and scaled.</summary>
public sealed record GlyphShape(string Class, string Data, double X, double Y, double Scale) : Shape(Class);

/// <summary>A picture laid out for one width: shapes in the order of drawing, and what a finger can find in it.</summary>
public sealed record Picture(
    double Width,
    double Height,
    IReadOnlyList<Shape> Shapes,
    IReadOnlyList<TouchTarget> Targets
);

/// <summary>Something a tap can find; the smaller its rank, the sooner it is taken.</summary>
public sealed record TouchTarget(
    int Rank,
    double X,
    double Y,
    NodaTime.Instant At,
    string Title,
    string Detail
);
