namespace Broodtide.Looking.Tried;

/// <summary>What can be tried on invented pictures.</summary>
public static class Tries
{
    public static void Run(string name, int number, int seed)
    {
        switch (name)
        {
            case "rulers":
                Rulers.Print(number, seed);
                break;
            case "chambers":
                Chambers.Print(number, seed);
                break;
            case "lengths":
                Lengths.Print(number, seed);
                break;
            default:
                throw new InvalidDataException($"There is no {name} to try.");
        }
    }
}
