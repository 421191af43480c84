using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>A file that may be damaged or made by somebody else, opened to be read and for nothing else.</summary>
internal static class DistrustedFile
{
    /// <summary>Opens it: nothing that its schema says is run, and every cell is checked as it is read.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="SqliteException">It is not there, or is no database.</exception>
    public static SqliteConnection Open(string path)
    {
        var connection = new SqliteConnection(
            new SqliteConnectionStringBuilder
            {
                DataSource = path,
                Mode = SqliteOpenMode.ReadOnly,
                Pooling = false,
            }.ToString()
        );
        try
        {
            connection.Open();
            connection.Run("PRAGMA trusted_schema=OFF");
            connection.Run("PRAGMA cell_size_check=ON");
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }
}
