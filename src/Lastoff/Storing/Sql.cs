using System.Data.Common;

namespace Lastoff.Storing;

/// <summary>Short ways of running a statement. Parameters are named <c>@a</c>, <c>@b</c> and so on where they stand in the text.</summary>
internal static class Sql
{
    public static DbCommand Command(this DbConnection connection, string text, params ReadOnlySpan<(string Name, object Value)> values)
    {
        var command = connection.CreateCommand();
        command.CommandText = text;
        foreach (var (name, value) in values)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = name;
            parameter.Value = value;
            command.Parameters.Add(parameter);
        }

        return command;
    }

    public static int Run(this DbConnection connection, string text, params ReadOnlySpan<(string Name, object Value)> values)
    {
        using var command = connection.Command(text, values);
        return command.ExecuteNonQuery();
    }

    /// <summary>The first column of the first row; null when there is no row.</summary>
    public static object? One(this DbConnection connection, string text, params ReadOnlySpan<(string Name, object Value)> values)
    {
        using var command = connection.Command(text, values);
        return command.ExecuteScalar() is { } value and not DBNull ? value : null;
    }
}
