namespace Broodtide.Doors.Tests.Kit;

/// <summary>Invented tables of vessels, doses and lives, for the examples of the help pages.</summary>
internal static class InventedTables
{
    public static async Task WriteAsync(Kitchen kitchen)
    {
        await Write(
            "vessels.csv",
            "treatment,vessel,alive,dead\nfilm,A,40,60\nfilm,B,45,55\nfilm,C,52,48\nfilm,D,38,62\n"
                + "green water,E,12,88\ngreen water,F,20,80\ngreen water,G,9,91\ngreen water,H,25,75\n"
        );
        await Write("doses.csv", "dose,n,dead\n0,40,3\n1,40,8\n2,40,19\n3,40,31\n4,40,38\n");
        await Write(
            "lives.csv",
            "group,day,died\nfilm,9,1\nfilm,20,0\nfilm,20,0\nbare,3,1\nbare,7,1\nbare,20,0\n"
        );

        Task Write(string name, string text) => File.WriteAllTextAsync(kitchen.At(name), text);
    }
}
