namespace Broodtide.Scenes;

/// <summary>A larva's true place in a frame, and its length, in pixels of the frame.</summary>
public readonly record struct TruePlace(double X, double Y, double Length);

/// <summary>One frame: three bytes a pixel, and where the larvae are.</summary>
public sealed record InventedFrame(int Width, int Height, byte[] Colours, IReadOnlyList<TruePlace> Truth);

/// <summary>Paints the frames of a scene in linear light, and takes them with its camera.</summary>
public sealed class Painter
{
    private const int Margin = 24;

    private readonly InventedScene _scene;
    private readonly Layer[] _layers;
    private readonly float[] _texture;
    private readonly int _textureWidth;

    public Painter(InventedScene scene)
    {
        _scene = scene;
        _layers = [.. CameraFacts.LayerBlur.Select(_ => new Layer(scene.Width, scene.Height))];
        (_texture, _textureWidth) = Texture(scene);
    }

    public InventedFrame Frame(int number)
    {
        var scene = _scene;
        foreach (var layer in _layers)
        {
            layer.Clear();
        }

        var truth = Larvae(number);
        Nuisances(number);
        var light = Floor(number);
        for (var depth = 0; depth < _layers.Length; depth++)
        {
            var extra = CameraFacts.LayerBlur[depth] * Math.Sqrt(scene.Scale);
            var sigma = Math.Sqrt(Math.Pow(scene.Camera.LensBlur, 2) + (extra * extra));
            Soft.Add(Soft.Blurred(_layers[depth].Light, scene.Width, scene.Height, sigma), 1, light);
        }

        Glow.Add(light, scene.Width, scene.Height, scene.Light.Glow, scene.Scale);
        return new(scene.Width, scene.Height, Sensor.Taken(scene, number, light), truth);
    }

    private List<TruePlace> Larvae(int number)
    {
        var truth = new List<TruePlace>();
        for (var i = 0; i < _scene.Larvae.Count; i++)
        {
            var (larva, pose) = (_scene.Larvae[i], _scene.Poses[number][i]);
            var at = Seen(pose.At, number);
            // Told from the middle of the first pixel.
            truth.Add(new(at.X - 0.5, at.Y - 0.5, larva.LengthPixels));
            var bright = larva.Albedo * _scene.Light.Of(pose.At.X, pose.At.Y);
            Put(larva, at, pose.Heading, pose.Bend, pose.Smear, bright);
            if (_scene.WallAt is { } wall)
            {
                // The mirror image in the wall.
                var behind = Seen(new((2 * wall) - pose.At.X, pose.At.Y), number);
                Put(
                    larva,
                    behind,
                    Math.PI - pose.Heading,
                    -pose.Bend,
                    pose.Smear with
                    {
                        X = -pose.Smear.X,
                    },
                    bright * _scene.WallBrightness
                );
            }
        }

        return truth;
    }

    private void Put(Larva larva, Spot at, double heading, double bend, Spot smear, double bright)
    {
        if (at.X > -larva.LengthPixels)
        {
            _layers[larva.Layer]
                .Add(
                    at,
                    larva.LengthPixels * 0.7,
                    smear,
                    Shapes.Larva(larva.LengthPixels, heading, bend, bright, hasEye: true)
                );
        }
    }

    private void Nuisances(int number)
    {
        foreach (var thing in _scene.Nuisances)
        {
            var (x, y) = (thing.At.X + (number * thing.Drift.X), thing.At.Y + (number * thing.Drift.Y));
            // What rose out of the picture comes in again below.
            y = y < 0 ? y + _scene.Height : y;
            var (turned, size) = (thing.Heading + (number * thing.Turn), thing.SizePixels);
            var bright = thing.Kind is NuisanceKind.Glare or NuisanceKind.Scratch
                ? thing.Brightness
                : thing.Brightness * _scene.Light.Of(x, y);
            var shape = thing.Kind switch
            {
                NuisanceKind.Debris => Shapes.Polygon(thing.Outline, turned, bright),
                NuisanceKind.Bubble => Shapes.Bubble(size, turned, bright, _scene.Scale),
                NuisanceKind.Moult => Shapes.Larva(size, turned, 0.8, bright, hasEye: false),
                NuisanceKind.Glare => Shapes.Ellipse(size, turned, bright),
                _ => Shapes.Scratch(size, turned, bright, _scene.Scale),
            };
            _layers[thing.Layer].Add(Seen(new(x, y), number), 1.1 * size, new(0, 0), shape);
        }
    }

    /// <summary>Where a place of the scene lies in a frame: ripples, then the hand that holds the camera.</summary>
    private Spot Seen(Spot at, int number)
    {
        var (hold, ripple) = (_scene.Camera.Holds[number], _scene.Ripple.Of(at.X, at.Y, number));
        var (u, v) = (at.X - (_scene.Width / 2.0), at.Y - (_scene.Height / 2.0));
        return new(
            at.X + hold.Shift.X - (hold.Radians * v) + (hold.Shear * v / _scene.Height) + ripple,
            at.Y + hold.Shift.Y + (hold.Radians * u) + (ripple / 2)
        );
    }

    private float[] Floor(int number)
    {
        var (scene, light) = (_scene, new float[_scene.Width * _scene.Height]);
        // The light is smooth: worked out on every fourth pixel.
        const int Step = 4;
        for (var top = 0; top < scene.Height; top += Step)
        {
            for (var left = 0; left < scene.Width; left += Step)
            {
                var (mx, my) = (left + (Step / 2.0), top + (Step / 2.0));
                var moved = Seen(new(mx, my), number);
                var (right, down) = (moved.X - mx, moved.Y - my);
                var lit =
                    scene.Light.FloorBase + (scene.Light.Scattered * scene.Light.Of(mx - right, my - down));
                for (var y = top; y < Math.Min(scene.Height, top + Step); y++)
                {
                    for (var x = left; x < Math.Min(scene.Width, left + Step); x++)
                    {
                        light[(y * scene.Width) + x] = (float)(lit * (1 + TextureAt(x - right, y - down)));
                    }
                }
            }
        }

        return light;
    }

    private double TextureAt(double x, double y)
    {
        var (u, v) = (
            Math.Clamp(x + Margin, 0, _textureWidth - 2),
            Math.Clamp(y + Margin, 0, (_texture.Length / _textureWidth) - 2)
        );
        var at = ((int)v * _textureWidth) + (int)u;
        var (right, down) = (u - (int)u, v - (int)v);
        var above = _texture[at] + (right * (_texture[at + 1] - _texture[at]));
        at += _textureWidth;
        return above + (down * (_texture[at] + (right * (_texture[at + 1] - _texture[at])) - above));
    }

    // Smooth noise of the scene's own grain and strength.
    private static (float[] Texture, int Width) Texture(InventedScene scene)
    {
        var (width, height) = (scene.Width + (2 * Margin), scene.Height + (2 * Margin));
        var noise = new Grain(scene.NoiseSeed);
        var texture = new float[width * height];
        for (var i = 0; i < texture.Length; i++)
        {
            texture[i] = noise.Next();
        }

        texture = Soft.Blurred(texture, width, height, scene.Light.TexturePixels);
        var deviation = Math.Sqrt(texture.Average(value => (double)value * value));
        var factor = (float)(scene.Light.Texture / Math.Max(1e-9, deviation));
        for (var i = 0; i < texture.Length; i++)
        {
            texture[i] *= factor;
        }

        return (texture, width);
    }
}
